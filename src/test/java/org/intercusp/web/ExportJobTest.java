package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Bulk exports taken back, expired, cut short, and too many of them. */
class ExportJobTest extends ExportServiceBase {

  @Test
  void oneThatIsTakenBackIsGoneWithItsFiles() throws IOException {
    String status = begin(Program.A_FULL, "/fhir/$export?_type=Patient");
    pin(status);
    Knock.Reply underWay = mustBe(202, as(Program.A_FULL, "GET", status).reply());
    assertThat(underWay.header("X-Progress")).isNotBlank();
    mustBe(404, as(Program.A_FULL, "GET", status + "/Patient.ndjson").reply());
    JsonNode said = read(as(Program.A_FULL, "DELETE", status).reply()).at("/issue/0");
    assertThat(said.path("code").asString()).isEqualTo("informational");
    assertThat(said.at("/details/coding/0/code").asString()).isEqualTo("fhir-taken-back");
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
    Knock.Reply third = as(Program.A_FULL, "GET", "/fhir/$export").with("Prefer", ASYNC).reply();
    assertThat(third.status()).isEqualTo(429);
    assertThat(third.header("Retry-After")).matches("\\d+");
    assertThat(third.body()).contains("fhir-too-many");
    begin(Program.B_FULL, "/fhir/$export?_type=Patient");
  }
}
