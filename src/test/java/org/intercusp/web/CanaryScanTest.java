package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.test.system.CapturedOutput;
import org.springframework.boot.test.system.OutputCaptureExtension;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * A patient made of canaries goes the main ways, bad ones too; none is found in what is logged,
 * measured or passed on to trace with. A leak planted the same way is found.
 */
@ExtendWith(OutputCaptureExtension.class)
class CanaryScanTest extends GuardedServiceBase {

  private static final String TRACE = "4bf92f3577b34da6a3ce929d0e0e4736";

  @Autowired JdbcClient jdbc;

  @Test
  void nothingOfAPatientIsLoggedMeasuredOrTraced(CapturedOutput log) throws Exception {
    LoggerFactory.getLogger("org.intercusp.planted").info("the scan begins");
    goodWays();
    badWays();
    brokenWays();
    refusedDelivery();
    // The log is what is looked at, and it is not empty.
    assertThat(log.getAll()).contains("the scan begins", "incident");
    assertThat(found(log.getAll())).isEmpty();
    String metrics = as(Program.OPERATOR, "GET", "/actuator/prometheus").reply().body();
    assertThat(metrics).contains("http_server_requests");
    assertThat(found(metrics)).isEmpty();
    List<String> passedOn = GuardedService.ECHO.headers();
    assertThat(passedOn)
        .anyMatch(line -> line.toLowerCase(java.util.Locale.ROOT).contains("00-" + TRACE));
    assertThat(found(String.join("\n", passedOn))).isEmpty();
  }

  @Test
  void aPlantedLeakIsFound(CapturedOutput log) {
    LoggerFactory.getLogger("org.intercusp.planted").info("stored for {}", "Zzcanaryfamily");
    LoggerFactory.getLogger("org.intercusp.planted")
        .error("failed", new IllegalStateException("no such patient ZZ-CANARY-7"));
    assertThat(found(log.getAll())).containsExactly("Zzcanaryfamily", "ZZ-CANARY-7");
  }

  private void goodWays() throws IOException {
    String file = GuardedService.ofB("CANARY-SCAN");
    mustBe(201, as(Program.B_FULL, "POST", "/treatments").json(file).reply());
    mustBe(200, as(Program.B_FULL, "POST", "/check").json(file).reply());
    mustBe(
        200,
        as(Program.B_FULL, "PUT", "/treatments/CANARY-SCAN")
            .with("If-Match", "\"1\"")
            .json(file.replace("female", "male"))
            .reply());
    for (String below : List.of("", "/history", "/findings", "/bundle", "/summary?format=pdf")) {
      mustBe(200, as(Program.B_FULL, "GET", "/treatments/CANARY-SCAN" + below).reply());
    }
  }

  /** A patient's words where none belong. */
  private void badWays() throws IOException {
    String file = GuardedService.ofB("CANARY-BAD");
    for (String bad :
        List.of(
            file.replace("\"sex\": \"female\"", "\"sex\": \"Zzcanaryfamily\""),
            file.replace("\"2011-11-11\"", "\"Zzcanarygiven 2011-11-11\""),
            file.substring(0, file.length() / 2),
            "Zzcanaryfamily",
            "{\"resourceType\": \"Patient\", \"name\": [{\"family\": \"Zzcanaryfamily\"")) {
      mustBe(400, as(Program.B_FULL, "POST", "/treatments").json(bad).reply());
      as(Program.B_FULL, "POST", "/fhir/$validate").json(bad).reply();
      as(Program.B_FULL, "POST", "/treatments/CANARY-SCAN/deliveries").json(bad).reply();
    }
    for (String path :
        List.of(
            "/treatments/Zzcanaryfamily",
            "/treatments/CANARY-SCAN?version=Zzcanaryfamily",
            "/treatments?after=Zzcanaryfamily",
            "/fhir/Patient?name=Zzcanaryfamily",
            "/fhir/Patient/ZZ-CANARY-7",
            "/Zzcanaryfamily",
            "/deliveries/ZZ-CANARY-7")) {
      as(Program.B_FULL, "GET", path)
          .with("X-Request-Id", "Zzcanaryfamily")
          .with("traceparent", "00-Zzcanaryfamily-01")
          .reply();
    }
    knock("GET", "/treatments").with("Authorization", "Bearer Zzcanaryfamily").reply();
    knock("GET", "/treatments").with("Host", "Zzcanaryfamily").reply();
  }

  /** A failure of ours in the middle of it. */
  private void brokenWays() throws IOException {
    jdbc.sql("alter table audit_event rename to audit_event_away").update();
    try {
      mustBe(
          500,
          as(Program.B_FULL, "POST", "/treatments")
              .json(GuardedService.ofB("CANARY-BROKEN"))
              .reply());
      mustBe(500, as(Program.B_FULL, "GET", "/treatments/CANARY-SCAN").reply());
    } finally {
      jdbc.sql("alter table audit_event_away rename to audit_event").update();
    }
  }

  private void refusedDelivery() throws Exception {
    Knock.Reply queued =
        mustBe(
            202,
            as(Program.B_FULL, "POST", "/treatments/CANARY-SCAN/deliveries")
                .with("traceparent", "00-" + TRACE + "-00f067aa0ba902b7-01")
                .json("{\"to\": \"echo\"}")
                .reply());
    Instant end = Instant.now().plus(Duration.ofMinutes(2));
    while (GuardedService.ECHO.headers().stream().noneMatch(line -> line.contains(TRACE))) {
      assertThat(Instant.now()).isBefore(end);
      Thread.sleep(100);
    }
    String place = queued.header("Location");
    String state = "under-way";
    while (List.of("queued", "under-way").contains(state)) {
      assertThat(Instant.now()).isBefore(end);
      Thread.sleep(100);
      state = read(as(Program.B_FULL, "GET", place).reply()).path("state").asString("");
    }
  }

  private static List<String> found(String text) {
    return Stream.concat(Stream.of(EchoServer.WORD), Stream.of(GuardedService.CANARIES))
        .filter(text::contains)
        .toList();
  }
}
