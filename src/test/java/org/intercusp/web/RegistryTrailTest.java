package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.locks.LockSupport;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.Weight;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

/** What is handed in to the registry, loaded, looked at and reported leaves a record each. */
class RegistryTrailTest extends GuardedServiceBase {

  @Autowired JdbcClient jdbc;
  @Autowired Conformance conformance;

  @Test
  void aSubmissionLeavesOneRecordAndItsLoadAnotherHoweverManyLines() throws Exception {
    StringBuilder lines = new StringBuilder();
    for (int i = 0; i < 300; i++) {
      String line = RegistryReachTest.record("harbour-lane", "harbour-lane", "case", 3);
      lines.append(
          line.replace("\"S-1\"", "\"S-T" + i + "\"").replace("\"T-1\"", "\"T-T" + i + "\""));
    }
    lines.append("{\"format\": \"Zzcanaryfamily\"}\n".repeat(7));
    Knock.Reply sent =
        mustBe(
            202, as(Program.A_FULL, "POST", "/registry/outcomes").json(lines.toString()).reply());
    String id = read(sent).path("id").asString();
    ended(Program.A_FULL, id);

    List<JsonNode> of = of(Program.A_FULL, id);
    assertThat(of)
        .extracting(RegistryTrailTest::deed)
        .containsOnlyOnce("queue", "create")
        .contains("read")
        .doesNotContain("delete", "refuse");
    JsonNode load = one(of, "create");
    assertThat(load.path("outcomeDesc").asString())
        .isEqualTo("307 read, 300 new, 0 same, 0 replaced, 7 refused");
    assertThat(load.path("outcome").asString()).isEqualTo("0");
    assertThat(load.at("/entity/0/name").asString()).isEqualTo("OutcomeSubmission");
    // Both in the name of who handed it in, under the id of their request, at their clinic.
    for (JsonNode event : List.of(load, one(of, "queue"))) {
      assertThat(event.at("/agent/0/altId").asString()).isEqualTo("a_full");
      assertThat(event.toString()).contains(sent.header("X-Request-Id"), "harbour-lane");
    }
    assertThat(of.toString()).doesNotContain("9434765919", "Zzcanaryfamily", "S-T1");
    assertThat(of(Program.B_FULL, id)).isEmpty();
    assertThat(of).allSatisfy(this::conforms);
  }

  private void conforms(JsonNode event) {
    assertThat(conformance.validate(json.writeValueAsBytes(event), Format.JSON))
        .noneMatch(issue -> issue.weight() == Weight.ERROR || issue.weight() == Weight.FATAL);
  }

  @Test
  void aWithdrawalIsOnRecordAndSoIsALoadOfNothingButRefusals() throws Exception {
    String left = RegistryReachTest.record("harbour-lane", "harbour-lane", "withdrawal", 0);
    String id = submitted(left.replace("S-1", "S-W").replace("9434765919", "9434765920"));
    assertThat(one(of(Program.A_FULL, id), "delete").path("outcomeDesc").asString())
        .isEqualTo("consent withdrawn: 1");
    String refused = submitted(RegistryReachTest.record("quay-side", "quay-side", "case", 4));
    JsonNode load = one(of(Program.A_FULL, refused), "create");
    assertThat(load.path("outcome").asString()).isEqualTo("4");
    assertThat(load.path("outcomeDesc").asString()).contains("0 new").endsWith("1 refused");
  }

  @ParameterizedTest
  @CsvSource({"*/*, json", "text/csv, csv", "application/fhir+json, fhir", "text/html, page"})
  void whoAskedForWhatReportIsOnRecord(String accept, String form) throws Exception {
    submitted(RegistryReachTest.record("harbour-lane", "harbour-lane", "case", 5));
    Knock.Reply reply =
        as(Program.A_READS, "GET", "/registry/report?cut-off=2026-08-31")
            .with("Accept", accept)
            .reply();
    mustBe(200, reply);
    List<JsonNode> of = of(Program.A_READS, reply.header("X-Request-Id"));
    assertThat(of).hasSize(1);
    assertThat(deed(of.get(0))).isEqualTo("read");
    assertThat(of.get(0).path("outcomeDesc").asString())
        .isEqualTo("registry report as " + form + " up to 2026-08-31");
    assertThat(of.get(0).at("/entity/0/name").asString()).isEqualTo("MeasureReport");
  }

  @Test
  void aBundleOfOneOutcomeIsOnRecordTakenOrRefused() throws Exception {
    String bundle =
        Files.readString(Path.of("profiles/example/Bundle-outcome-bundle-example.json"));
    Knock.Reply taken = fhir(Program.OPERATOR, bundle);
    mustBe(200, taken);
    assertThat(of(Program.OPERATOR, taken.header("X-Request-Id")))
        .extracting(RegistryTrailTest::deed)
        .containsExactlyInAnyOrder("queue", "create");
    Knock.Reply refused = fhir(Program.OPERATOR, bundle.replace("\"birthDate\"", "\"birthDat\""));
    mustBe(422, refused);
    List<JsonNode> of = of(Program.OPERATOR, refused.header("X-Request-Id"));
    assertThat(of).hasSize(1);
    assertThat(of.get(0).path("outcome").asString()).isEqualTo("4");
    assertThat(of.get(0).path("outcomeDesc").asString()).contains("does not conform");
    // Of a submitter they may not speak for.
    Knock.Reply foreign = fhir(Program.A_FULL, bundle);
    mustBe(403, foreign);
    assertThat(of(Program.OPERATOR, foreign.header("X-Request-Id")))
        .extracting(event -> deed(event) + " " + event.path("outcome").asString())
        .contains("create 4", "refuse 4");
  }

  private Knock.Reply fhir(Program program, String bundle) throws IOException {
    return as(program, "POST", "/fhir")
        .with("Content-Type", "application/fhir+json")
        .json(bundle)
        .reply();
  }

  @Test
  void withoutARecordNothingIsTakenToldOrReported() throws Exception {
    String before = submitted(RegistryReachTest.record("harbour-lane", "harbour-lane", "case", 7));
    String line = RegistryReachTest.record("harbour-lane", "harbour-lane", "case", 8);
    String unrecorded = line.replace("S-1", "S-U").replace("T-1", "T-U");
    String bundle =
        Files.readString(Path.of("profiles/example/Bundle-outcome-bundle-example.json"));
    jdbc.sql("alter table audit_event rename to audit_event_away").update();
    try {
      mustBe(500, as(Program.A_FULL, "POST", "/registry/outcomes").json(unrecorded).reply());
      mustBe(500, as(Program.A_FULL, "GET", "/registry/outcomes/" + before).reply());
      for (String accept : List.of("application/json", "text/csv", "text/html")) {
        Knock knock = as(Program.A_FULL, "GET", "/registry/report").with("Accept", accept);
        assertThat(knock.reply().status()).as(accept).isEqualTo(500);
      }
      mustBe(500, fhir(Program.OPERATOR, bundle));
    } finally {
      jdbc.sql("alter table audit_event_away rename to audit_event").update();
    }
    // New now: the first time it was not kept.
    assertThat(ended(Program.A_FULL, submitted(unrecorded)).at("/counts/new").asInt()).isEqualTo(1);
  }

  private String submitted(String line) throws Exception {
    Knock.Reply sent =
        mustBe(202, as(Program.A_FULL, "POST", "/registry/outcomes").json(line).reply());
    String id = read(sent).path("id").asString();
    ended(Program.A_FULL, id);
    return id;
  }

  private JsonNode ended(Program program, String id) throws Exception {
    for (int i = 0; i < 300; i++) {
      JsonNode status = read(as(program, "GET", "/registry/outcomes/" + id).reply());
      if (status.path("state").asString().matches("done|failed")) {
        return status;
      }
      LockSupport.parkNanos(100_000_000);
    }
    throw new AssertionError("it does not end: " + id);
  }

  private static String deed(JsonNode event) {
    return event.path("subtype").path(0).path("code").stringValue();
  }

  private static JsonNode one(List<JsonNode> events, String deed) {
    return events.stream().filter(event -> deed(event).equals(deed)).findFirst().orElseThrow();
  }

  /** The records that name this request or submission. */
  private List<JsonNode> of(Program program, String id) throws IOException {
    List<JsonNode> found = new ArrayList<>();
    JsonNode bundle = read(as(program, "GET", "/fhir/AuditEvent?_count=60").reply());
    for (JsonNode entry : bundle.path("entry")) {
      if (entry.toString().contains(id)) {
        found.add(entry.path("resource"));
      }
    }
    return found;
  }
}
