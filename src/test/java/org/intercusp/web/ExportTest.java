package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

/** Bulk export from asking to its files, over the network, with two clinics that may not meet. */
class ExportTest extends ExportServiceBase {

  @Test
  void everythingOfOnesOwnAndNothingElse() throws IOException {
    String status = begin(Program.A_READS, "/fhir/$export");
    Knock.Reply reply = done(Program.A_READS, status);
    JsonNode manifest = read(reply);
    assertThat(manifest.path("request").stringValue()).endsWith("/fhir/$export");
    assertThat(manifest.path("requiresAccessToken").booleanValue()).isTrue();
    assertThat(manifest.path("error").isArray()).isTrue();
    Instant expires =
        ZonedDateTime.parse(reply.header("Expires"), DateTimeFormatter.RFC_1123_DATE_TIME)
            .toInstant();
    assertThat(Duration.between(Instant.now(), expires))
        .isBetween(Duration.ofHours(23), Duration.ofHours(24));
    Map<String, List<JsonNode>> files = files(Program.A_READS, manifest);
    assertThat(files).containsKeys("Patient", "Organization", "Observation", "CarePlan");
    assertThat(files.toString()).doesNotContain(GuardedService.CANARIES);
    for (Map.Entry<String, List<JsonNode>> type : files.entrySet()) {
      JsonNode found =
          read(as(Program.A_READS, "GET", "/fhir/" + type.getKey() + "?_summary=count").reply());
      assertThat(type.getValue()).as(type.getKey()).hasSize(found.path("total").intValue());
      JsonNode first = type.getValue().get(0);
      String place = "/fhir/" + type.getKey() + "/" + first.path("id").stringValue();
      assertThat(read(as(Program.A_READS, "GET", place).reply())).isEqualTo(first);
    }
    Path folder = folder(status);
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(folder)))
        .isEqualTo("rwx------");
    try (Stream<Path> written = Files.list(folder)) {
      assertThat(written)
          .hasSameSizeAs(files.keySet())
          .allMatch(file -> file.toString().endsWith(".ndjson"))
          .allMatch(file -> rights(file).equals("rw-------"));
    }
  }

  private static String rights(Path file) {
    try {
      return PosixFilePermissions.toString(Files.getPosixFilePermissions(file));
    } catch (IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  @Test
  void whoAsksIsTheOnlyOneWhoSeesIt() throws IOException {
    String status = begin(Program.B_FULL, "/fhir/$export?_type=Patient");
    done(Program.B_FULL, status);
    for (Program other : List.of(Program.A_FULL, Program.OPERATOR, Program.STRANGER)) {
      for (String path : List.of(status, status + "/Patient.ndjson")) {
        Knock.Reply reply = as(other, "GET", path).reply();
        assertThat(reply.status()).as(other + " " + path).isEqualTo(404);
        assertThat(reply.body()).doesNotContain(GuardedService.CANARIES);
      }
      assertThat(as(other, "DELETE", status).reply().status()).isEqualTo(404);
    }
    assertThat(as(Program.NARROW, "GET", status).reply().status()).isEqualTo(403);
    assertThat(knock("GET", status).reply().status()).isEqualTo(401);
    assertThat(as(Program.B_FULL, "GET", status + "/Patient.ndjson").reply().body())
        .contains("Zzcanaryfamily");
    // Whoever reaches other clinics now than when they asked has no part in it any more.
    jdbc.sql("update bulk_export set reach = '*' where id = :id").param("id", id(status)).update();
    assertThat(as(Program.B_FULL, "GET", status).reply().status()).isEqualTo(404);
    jdbc.sql("delete from bulk_export where id = :id").param("id", id(status)).update();
  }

  @Test
  void theOperatorGetsAllClinicsAndEachClinicLearnsOfIt() throws IOException {
    String status = begin(Program.OPERATOR, "/fhir/$export?_type=Patient");
    Map<String, List<JsonNode>> files =
        files(Program.OPERATOR, read(done(Program.OPERATOR, status)));
    assertThat(files.get("Patient").toString()).contains("Zzcanaryfamily", "Freya");
    for (Program clinic : List.of(Program.A_FULL, Program.B_FULL)) {
      assertThat(as(clinic, "GET", "/fhir/AuditEvent?_count=200").reply().body())
          .contains(id(status));
    }
    assertThat(
            jdbc.sql(
                    "select distinct deed from audit_event where thing_type = 'Export' and thing_id"
                        + " = :id and outcome = '0' order by deed")
                .param("id", id(status))
                .query(String.class)
                .list())
        .containsExactly("disclose", "queue");
  }

  @Test
  void whatStandsIsToldToWhoAsksForLines() throws IOException {
    String status = begin(Program.A_READS, "/fhir/$export?_type=Patient");
    done(Program.A_READS, status);
    for (String wanted : List.of("application/fhir+ndjson", "application/ndjson")) {
      Knock.Reply reply = as(Program.A_READS, "GET", status).with("Accept", wanted).reply();
      assertThat(reply.status()).as(reply.body()).isEqualTo(200);
      assertThat(reply.header("Content-Type")).startsWith("application/json");
    }
  }

  @Test
  void toAskAboutOneBeginsNone() throws IOException {
    Knock.Reply reply =
        as(Program.A_READS, "HEAD", "/fhir/$export").with("Prefer", "respond-async").reply();
    assertThat(reply.status()).isEqualTo(405);
    assertThat(reply.header("Allow")).isEqualTo("GET");
    assertThat(reply.header("Content-Location")).isNullOrEmpty();
  }

  @Test
  void onlyWhatSpeaksOfPatients() throws IOException {
    String status = begin(Program.A_READS, "/fhir/Patient/$export");
    Map<String, List<JsonNode>> files = files(Program.A_READS, read(done(Program.A_READS, status)));
    assertThat(files)
        .containsKeys("Patient", "Observation")
        .doesNotContainKeys("Organization", "Practitioner", "PractitionerRole");
  }

  @Test
  void whatChangedSinceIsAllAndNoMore() throws IOException {
    String before = begin(Program.A_FULL, "/fhir/$export");
    JsonNode first = read(done(Program.A_FULL, before));
    mustBe(
        201,
        as(Program.A_FULL, "POST", "/treatments").json(GuardedService.ofA("A-EXPORT-1")).reply());
    String time = first.path("transactionTime").stringValue();
    String after = begin(Program.A_FULL, "/fhir/$export?_since=" + time.replace("+", "%2B"));
    Map<String, List<JsonNode>> changed = files(Program.A_FULL, read(done(Program.A_FULL, after)));
    Map<String, List<JsonNode>> old = files(Program.A_FULL, first);
    // The new treatment has its own plan; patient, clinic and clinician are as they were.
    assertThat(changed.get("CarePlan")).isNotEmpty();
    assertThat(changed).doesNotContainKeys("Patient", "Organization");
    assertThat(changed.toString()).contains("A-EXPORT-1");
    assertThat(old.toString()).doesNotContain("A-EXPORT-1");
    for (Map.Entry<String, List<JsonNode>> type : changed.entrySet()) {
      assertThat(type.getValue())
          .doesNotContainAnyElementsOf(old.getOrDefault(type.getKey(), List.of()));
      JsonNode found =
          read(as(Program.A_FULL, "GET", "/fhir/" + type.getKey() + "?_summary=count").reply());
      assertThat(type.getValue().size() + old.getOrDefault(type.getKey(), List.of()).size())
          .as(type.getKey())
          .isEqualTo(found.path("total").intValue());
    }
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "$export                                   | ''                              | 400",
        "$export                                   | respond-async, handling=strict  | 202",
        "$export?nonsense=1                        | respond-async                   | 202",
        "$export?nonsense=1                        | respond-async; handling=strict  | 400",
        "$export?_elements=id                      | respond-async, handling=strict  | 400",
        "$export?_type=Patient,Nonsense            | respond-async                   | 400",
        "$export?_type=Patient,Nonsense            | respond-async, handling=lenient | 202",
        "Patient/$export?_type=Organization        | respond-async                   | 400",
        "$export?_type=AuditEvent                  | respond-async                   | 400",
        "$export?_outputFormat=ndjson              | respond-async                   | 202",
        "$export?_outputFormat=application/fhir%2Bndjson | respond-async             | 202",
        "$export?_outputFormat=text/csv            | respond-async                   | 400",
        "$export?_since=yesterday                  | respond-async                   | 400",
        "$export?_since=2026-01-01T00:00:00Z       | respond-async                   | 202"
      })
  void parametersAreKnownOrSaidToBeUnknown(String path, String prefer, int expected)
      throws IOException {
    Knock.Reply reply = as(Program.A_FULL, "GET", "/fhir/" + path).with("Prefer", prefer).reply();
    String place = reply.header("Content-Location");
    if (!place.isEmpty()) {
      begun.put(place.substring(place.indexOf("/fhir/")), Program.A_FULL);
    }
    assertThat(reply.status()).as(reply.body()).isEqualTo(expected);
    if (path.contains("nonsense") || path.contains("Nonsense")) {
      assertThat(reply.body()).containsIgnoringCase("nonsense").contains("OperationOutcome");
    }
  }
}
