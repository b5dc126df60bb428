package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** Sheets of records in and summaries out over HTTP, on a real port with an embedded database. */
class SheetAndSummaryTest extends OpenServiceBase {

  @Test
  void aSheetOfRecordsIsAddedRowByRow() throws IOException {
    String sheet = Files.readString(Path.of("sample-bundles/records-template.csv"));
    Knock.Reply homeless = sheet("/treatments", sheet);
    assertThat(homeless.status()).isEqualTo(400);
    assertThat(homeless.header("Content-Type")).startsWith("application/problem+json");
    assertThat(json.readTree(homeless.body()).at("/findings/0/cell/line").asInt()).isEqualTo(2);

    assertThat(knock("POST", "/treatments").json(sample("stage-change")).reply().status())
        .isEqualTo(201);
    JsonNode same = json.readTree(sheet("/treatments", sheet).body());
    assertThat(same.at("/treatments/0/outcome").asString()).isEqualTo("same");
    assertThat(same.at("/rows/taken").asInt()).isEqualTo(9);

    String changed = sheet.replace("8.5,13.5", "8.0,13.5").replace("review,HL", "revue,HL");
    assertThat(sheet("/check", changed).status()).isEqualTo(200);
    Knock.Reply reply = sheet("/treatments", changed);
    assertThat(reply.status()).isEqualTo(200);
    JsonNode body = json.readTree(reply.body());
    assertThat(body.at("/treatments/0/outcome").asString()).isEqualTo("updated");
    assertThat(body.at("/treatments/0/version").asInt()).isEqualTo(2);
    assertThat(body.path("rows").toString()).isEqualTo("{\"read\":9,\"taken\":1,\"refused\":8}");
    assertThat(body.at("/refusals/0/cell").toString())
        .isEqualTo("{\"line\":3,\"column\":1,\"name\":\"record\"}");
  }

  private Knock.Reply sheet(String path, String csv) throws IOException {
    return knock("POST", path).with("Content-Type", "text/csv").json(csv).reply();
  }

  @Test
  void aSummaryComesInTheFormThatIsAskedFor() throws IOException {
    Knock.Reply taken = knock("POST", "/treatments").json(sample("deep-bite-one-step")).reply();
    String summary = taken.header("Location") + "/summary";
    assertThat(typeOf(summary, "text/*;q=0.9,*/*;q=0.8")).startsWith("text/html");
    assertThat(typeOf(summary, "text/html;q=0.5,application/pdf")).isEqualTo("application/pdf");
    assertThat(typeOf(summary, "application/fhir+json")).startsWith("application/fhir+json");
    assertThat(typeOf(summary + "?format=pdf", "text/html")).isEqualTo("application/pdf");
    assertThat(knock("GET", summary + "?format=docx").reply().status()).isEqualTo(400);
    assertThat(knock("GET", summary + "?language=fr").reply().status()).isEqualTo(400);
    assertThat(knock("GET", summary + "?for=patient&language=de").reply().status()).isEqualTo(200);
    assertThat(knock("GET", summary + "?language=en-GB").reply().status()).isEqualTo(200);
    for (String reader : List.of("dentist", "laboratory")) {
      Knock.Reply german = knock("GET", summary + "?language=de&for=" + reader).reply();
      assertThat(german.status()).as(reader).isEqualTo(400);
      assertThat(german.body()).contains("the patient's document alone is in German too");
    }
  }

  /** What is made of more than the version has a tag of its own, which If-Match takes too. */
  @Test
  void theTagOfABundleAndOfProposalsIsOfTheirContent() throws IOException {
    String file = sample("deep-bite-one-step").replace("HL-2026-001", "TAG-1");
    Knock.Reply taken = knock("POST", "/treatments").json(file).reply();
    String place = taken.header("Location");
    String bundle = knock("GET", place + "/bundle").reply().header("ETag");
    String collection = knock("GET", place + "/bundle?as=collection").reply().header("ETag");
    assertThat(bundle).matches("\"1-[0-9a-f]{16}\"").isNotEqualTo(collection);
    assertThat(knock("GET", place + "/bundle").with("If-None-Match", bundle).reply().status())
        .isEqualTo(304);
    String proposals = knock("GET", place + "/proposals").reply().header("ETag");
    assertThat(proposals).matches("\"1-[0-9a-f]{16}\"");
    assertThat(knock("PUT", place).with("If-Match", proposals).json(file).reply().status())
        .isEqualTo(200);
    assertThat(
            knock("PUT", place)
                .with("If-Match", "\"9-0123456789abcdef\"")
                .json(file)
                .reply()
                .status())
        .isEqualTo(412);
  }

  private String typeOf(String path, String accept) throws IOException {
    return knock("GET", path).with("Accept", accept).reply().header("Content-Type");
  }
}
