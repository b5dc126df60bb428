package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import java.util.function.BooleanSupplier;
import java.util.stream.Stream;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.core.env.Environment;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

/** Bulk export from asking to expiry, over the network, with two clinics that may not meet. */
class ExportTest extends GuardedServiceBase {

  private static final String ASYNC = "respond-async";

  @Autowired JdbcClient jdbc;
  @Autowired Environment environment;

  private final Map<String, Program> begun = new LinkedHashMap<>();

  @AfterEach
  void takeBack() throws IOException {
    for (Map.Entry<String, Program> one : begun.entrySet()) {
      as(one.getValue(), "DELETE", one.getKey()).reply();
    }
  }

  /** Asks for an export; the path of its status. */
  private String begin(Program program, String path) throws IOException {
    Knock.Reply reply =
        mustBe(202, as(program, "GET", path).with("Prefer", ASYNC).reply());
    String place = reply.header("Content-Location");
    assertThat(place).startsWith("http://127.0.0.1:" + port + "/fhir/$export/");
    String status = place.substring(place.indexOf("/fhir/"));
    begun.put(status, program);
    return status;
  }

  private Knock.Reply done(Program program, String status) throws IOException {
    Knock.Reply reply = as(program, "GET", status).reply();
    while (reply.status() == 202) {
      assertThat(reply.header("Retry-After")).matches("\\d+");
      assertThat(reply.header("X-Progress")).isNotBlank();
      LockSupport.parkNanos(200_000_000);
      reply = as(program, "GET", status).reply();
    }
    return mustBe(200, reply);
  }

  private Map<String, List<JsonNode>> files(Program program, JsonNode manifest)
      throws IOException {
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

  private Path folder(String status) throws IOException {
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

  private static String id(String status) {
    return status.substring(status.lastIndexOf('/') + 1);
  }

  private static void soon(BooleanSupplier that) {
    Instant end = Instant.now().plusSeconds(30);
    while (!that.getAsBoolean()) {
      assertThat(Instant.now()).isBefore(end);
      LockSupport.parkNanos(100_000_000);
    }
  }

  /** As if an instance were at work on it for the next hour; whoever is, is fenced off. */
  private void pin(String status) {
    jdbc.sql(
            "update bulk_export set state = 'RUNNING', attempt = attempt + 1, leased_until = :until"
                + " where id = :id")
        .param("until", OffsetDateTime.now(ZoneOffset.UTC).plusHours(1))
        .param("id", id(status))
        .update();
  }

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
  void onlyWhatSpeaksOfPatients() throws IOException {
    String status = begin(Program.A_READS, "/fhir/Patient/$export");
    Map<String, List<JsonNode>> files =
        files(Program.A_READS, read(done(Program.A_READS, status)));
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
    Map<String, List<JsonNode>> changed =
        files(Program.A_FULL, read(done(Program.A_FULL, after)));
    Map<String, List<JsonNode>> old = files(Program.A_FULL, first);
    // The new treatment has its own plan; patient, clinic and clinician are as they were.
    assertThat(changed.get("CarePlan")).isNotEmpty();
    assertThat(changed).doesNotContainKeys("Patient", "Organization");
    assertThat(changed.toString()).contains("A-EXPORT-1");
    assertThat(old.toString()).doesNotContain("A-EXPORT-1");
    for (Map.Entry<String, List<JsonNode>> type : changed.entrySet()) {
      assertThat(type.getValue()).doesNotContainAnyElementsOf(old.getOrDefault(type.getKey(), List.of()));
      JsonNode found =
          read(as(Program.A_FULL, "GET", "/fhir/" + type.getKey() + "?_summary=count").reply());
      assertThat(type.getValue().size() + old.getOrDefault(type.getKey(), List.of()).size())
          .as(type.getKey())
          .isEqualTo(found.path("total").intValue());
    }
  }

  @Test
  void oneThatIsTakenBackIsGoneWithItsFiles() throws IOException {
    String status = begin(Program.A_FULL, "/fhir/$export?_type=Patient");
    pin(status);
    Knock.Reply underWay = mustBe(202, as(Program.A_FULL, "GET", status).reply());
    assertThat(underWay.header("X-Progress")).isNotBlank();
    mustBe(404, as(Program.A_FULL, "GET", status + "/Patient.ndjson").reply());
    mustBe(202, as(Program.A_FULL, "DELETE", status).reply());
    mustBe(404, as(Program.A_FULL, "GET", status).reply());
    mustBe(404, as(Program.A_FULL, "DELETE", status).reply());
    String other = begin(Program.A_FULL, "/fhir/$export?_type=Patient");
    done(Program.A_FULL, other);
    Path folder = folder(other);
    assertThat(folder.resolve("Patient.ndjson")).isRegularFile();
    mustBe(202, as(Program.A_FULL, "DELETE", other).reply());
    assertThat(folder).doesNotExist();
    mustBe(404, as(Program.A_FULL, "GET", other + "/Patient.ndjson").reply());
    assertThat(folder(status)).doesNotExist();
  }

  @Test
  void oneThatHasExpiredIsGoneWithItsFiles() throws IOException {
    String status = begin(Program.A_FULL, "/fhir/$export?_type=Patient");
    done(Program.A_FULL, status);
    Path folder = folder(status);
    jdbc.sql("update bulk_export set expires_at = :past where id = :id")
        .param("past", OffsetDateTime.now(ZoneOffset.UTC).minusSeconds(1))
        .param("id", id(status))
        .update();
    mustBe(404, as(Program.A_FULL, "GET", status).reply());
    mustBe(404, as(Program.A_FULL, "GET", status + "/Patient.ndjson").reply());
    soon(() -> !Files.exists(folder));
    assertThat(
            jdbc.sql("select count(*) from bulk_export where id = :id")
                .param("id", id(status))
                .query(Long.class)
                .single())
        .isZero();
  }

  @Test
  void oneThatWasCutShortIsMadeAnewAsItWas() throws IOException {
    String status = begin(Program.A_FULL, "/fhir/$export?_type=Patient,Observation");
    JsonNode first = read(done(Program.A_FULL, status));
    Map<String, List<JsonNode>> files = files(Program.A_FULL, first);
    Path folder = folder(status);
    // As a service leaves it that ends without a word in the middle of its work.
    jdbc.sql(
            "update bulk_export set state = 'RUNNING', output = '', expires_at = null, leased_until"
                + " = :past where id = :id")
        .param("past", OffsetDateTime.now(ZoneOffset.UTC).minusSeconds(1))
        .param("id", id(status))
        .update();
    soon(() -> !Files.exists(folder));
    JsonNode again = read(done(Program.A_FULL, status));
    assertThat(again).isEqualTo(first);
    assertThat(files(Program.A_FULL, again)).isEqualTo(files);
    assertThat(folder(status)).isNotEqualTo(folder).isDirectory();
  }

  @Test
  void oneCallerHasNotAsManyAsTheyLike() throws IOException {
    for (int i = 0; i < 2; i++) {
      pin(begin(Program.A_FULL, "/fhir/$export?_type=Patient"));
    }
    Knock.Reply third =
        as(Program.A_FULL, "GET", "/fhir/$export").with("Prefer", ASYNC).reply();
    assertThat(third.status()).isEqualTo(429);
    assertThat(third.header("Retry-After")).matches("\\d+");
    assertThat(third.body()).contains("fhir-too-many");
    begin(Program.B_FULL, "/fhir/$export?_type=Patient");
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
    Knock.Reply reply =
        as(Program.A_FULL, "GET", "/fhir/" + path).with("Prefer", prefer).reply();
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
