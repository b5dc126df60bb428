package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import java.util.stream.Stream;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.AfterEach;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.core.env.Environment;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

/** What tests of bulk export ask of the service where two clinics log in. */
abstract class ExportServiceBase extends GuardedServiceBase {

  static final String ASYNC = "respond-async";

  @Autowired JdbcClient jdbc;
  @Autowired Environment environment;

  final Map<String, Program> begun = new LinkedHashMap<>();

  @AfterEach
  void takeBack() throws IOException {
    for (Map.Entry<String, Program> one : begun.entrySet()) {
      as(one.getValue(), "DELETE", one.getKey()).reply();
    }
  }

  /** Asks for an export; the path of its status. */
  String begin(Program program, String path) throws IOException {
    Knock.Reply reply = mustBe(202, as(program, "GET", path).with("Prefer", ASYNC).reply());
    String place = reply.header("Content-Location");
    assertThat(place).startsWith("http://127.0.0.1:" + port + "/fhir/$export/");
    String status = place.substring(place.indexOf("/fhir/"));
    begun.put(status, program);
    return status;
  }

  Knock.Reply done(Program program, String status) throws IOException {
    Knock.Reply reply = as(program, "GET", status).reply();
    while (reply.status() == 202) {
      assertThat(reply.header("Retry-After")).matches("\\d+");
      assertThat(reply.header("X-Progress")).isNotBlank();
      LockSupport.parkNanos(200_000_000);
      reply = as(program, "GET", status).reply();
    }
    return mustBe(200, reply);
  }

  Map<String, List<JsonNode>> files(Program program, JsonNode manifest) throws IOException {
    Map<String, List<JsonNode>> files = new LinkedHashMap<>();
    for (JsonNode output : manifest.path("output")) {
      String url = output.path("url").stringValue();
      Knock.Reply file =
          as(program, "GET", url.substring(url.indexOf("/fhir/")))
              .with("Accept", "application/fhir+ndjson")
              .reply();
      mustBe(200, file);
      List<JsonNode> lines = new ArrayList<>();
      file.body().lines().forEach(line -> lines.add(json.readTree(line)));
      String type = output.path("type").stringValue();
      assertThat(lines).hasSize(output.path("count").intValue());
      assertThat(lines).allMatch(one -> one.path("resourceType").stringValue().equals(type));
      files.put(type, lines);
    }
    return files;
  }

  Path folder(String status) throws IOException {
    Path root = Path.of(environment.getRequiredProperty("intercusp.data")).resolve("exports");
    String id = id(status);
    if (!Files.isDirectory(root)) {
      return root.resolve(id);
    }
    try (Stream<Path> folders = Files.list(root)) {
      return folders
          .filter(one -> one.getFileName().toString().startsWith(id))
          .findFirst()
          .orElse(root.resolve(id));
    }
  }

  static String id(String status) {
    return status.substring(status.lastIndexOf('/') + 1);
  }

  static void soon(BooleanSupplier that) {
    Instant end = Instant.now().plusSeconds(120);
    while (!that.getAsBoolean()) {
      assertThat(Instant.now()).isBefore(end);
      LockSupport.parkNanos(100_000_000);
    }
  }

  /** As if an instance were at work on it for the next hour; whoever is, is fenced off. */
  void pin(String status) {
    jdbc.sql(
            "update bulk_export set state = 'RUNNING', attempt = attempt + 1, leased_until = :until"
                + " where id = :id")
        .param("until", OffsetDateTime.now(ZoneOffset.UTC).plusHours(1))
        .param("id", id(status))
        .update();
  }
}
