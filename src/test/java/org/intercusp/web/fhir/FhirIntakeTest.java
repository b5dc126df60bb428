package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.zip.GZIPOutputStream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Patient;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Whole treatments at the base, and treatment files with deliveries at the other door. */
class FhirIntakeTest extends FhirService {

  private static final String JSON = "application/fhir+json";

  @Test
  void aTreatmentIsTakenAndTheSameAgainChangesNothing() throws Exception {
    String text = bundleOf("consent-without-hospital");
    Bundle sent = (Bundle) FHIR.newJsonParser().parseResource(text);
    Bundle first = bundle(post("", JSON, text));
    assertThat(first.getEntry()).hasSameSizeAs(sent.getEntry());
    for (int i = 0; i < first.getEntry().size(); i++) {
      BundleEntryComponent entry = first.getEntry().get(i);
      String type = sent.getEntry().get(i).getResource().fhirType();
      assertThat(entry.getResponse().getLocation()).startsWith(type + "/").endsWith("/_history/1");
      assertThat(entry.getResponse().getEtag()).isEqualTo("W/\"1\"");
      assertThat(entry.getResponse().getLastModified()).isNotNull();
      assertThat(get("/" + entry.getResponse().getLocation()).statusCode()).isEqualTo(200);
    }
    assertThat(first.getEntry())
        .filteredOn(entry -> entry.getResponse().getStatus().startsWith("201"))
        .hasSizeGreaterThan(20);
    Bundle again = bundle(post("", JSON, text, "Prefer", "return=representation"));
    for (int i = 0; i < again.getEntry().size(); i++) {
      BundleEntryComponent entry = again.getEntry().get(i);
      assertThat(entry.getResponse().getStatus()).isEqualTo("200 OK");
      assertThat(entry.getResponse().getLocation())
          .isEqualTo(first.getEntry().get(i).getResponse().getLocation());
      assertThat(entry.getResource().fhirType())
          .isEqualTo(sent.getEntry().get(i).getResource().fhirType());
    }
    JsonNode file = new JsonMapper().readTree(sample("consent-without-hospital"));
    HttpResponse<String> kept = get("/treatments/" + file.path("id").asString());
    assertThat(new JsonMapper().readTree(kept.body())).isEqualTo(file);
    assertThat(header(kept, "ETag")).isEqualTo("\"1\"");
  }

  @Test
  void anOutcomeIsTakenForTheRegistryOnce() throws Exception {
    String text = Files.readString(Path.of("profiles/example/Bundle-outcome-bundle-example.json"));
    assertThat(bundle(post("", JSON, text)).getEntry())
        .isNotEmpty()
        .allMatch(entry -> entry.getResponse().getStatus().equals("201 Created"));
    assertThat(bundle(post("", JSON, text)).getEntry())
        .allMatch(entry -> entry.getResponse().getStatus().equals("200 OK"));
    String other = text.replaceFirst("\"code\"\\s*:\\s*\"registry-course\"", "\"code\": \"x\"");
    String unfit = other.equals(text) ? text.replace("\"collection\"", "\"batch\"") : other;
    fault(post("", JSON, unfit), 422);
  }

  @Test
  void findingsAreToldAndStopNothing() throws Exception {
    Bundle answer = bundle(post("", JSON, bundleOf("unsafe-bite-refused")));
    assertThat(answer.getEntry())
        .filteredOn(entry -> entry.getResponse().hasOutcome())
        .flatExtracting(entry -> ((OperationOutcome) entry.getResponse().getOutcome()).getIssue())
        .extracting(
            issue ->
                ((OperationOutcome.OperationOutcomeIssueComponent) issue)
                    .getDetails()
                    .getCodingFirstRep()
                    .getCode())
        .contains("bite-share-exceeded");
  }

  @Test
  void whatIsNotATreatmentIsToldWhereItGoes() throws Exception {
    for (String body :
        List.of(
            "{\"resourceType\": \"Patient\"}",
            "{\"resourceType\": \"Bundle\", \"type\": \"batch\"}",
            "{\"resourceType\": \"Bundle\", \"meta\": {\"profile\": [\"http://x.example/y\"]},"
                + " \"type\": \"transaction\"}")) {
      OperationOutcome outcome = fault(post("", JSON, body), 422);
      assertThat(outcome.getIssueFirstRep().getDetails().getText())
          .contains("/treatments", "$validate", "StructureDefinition/treatment-bundle");
    }
    fault(post("", JSON, "{\"resourceType\": \"Bundle\""), 400);
    fault(post("", "text/plain", "x"), 415);
  }

  @Test
  void whatDoesNotConformIsRefusedWhole() throws Exception {
    int before = bundle(get("/Patient?_summary=count")).getTotal();
    String broken =
        bundleOf("deep-bite-one-step")
            .replaceFirst("\"status\"\\s*:\\s*\"active\"", "\"status\": \"nonsense\"");
    OperationOutcome outcome = fault(post("", JSON, broken), 400);
    assertThat(outcome.getIssue())
        .anyMatch(OperationOutcome.OperationOutcomeIssueComponent::hasExpression);
    String otherForm = bundleOf("deep-bite-one-step").replaceFirst("\"transaction\"", "\"batch\"");
    fault(post("", JSON, otherForm), 422);
    assertThat(bundle(get("/Patient?_summary=count")).getTotal()).isEqualTo(before);
  }

  @Test
  void documentsComeGzippedAndBounded() throws Exception {
    HttpResponse<String> judged =
        gzipped("{\"resourceType\": \"Patient\"}".getBytes(StandardCharsets.UTF_8));
    assertThat(judged.statusCode()).isEqualTo(200);
    fault(gzipped(new byte[64 * 1024 * 1024]), 413);
    HttpRequest lie =
        HttpRequest.newBuilder(URI.create(base() + "/$validate"))
            .header("Content-Type", JSON)
            .header("Content-Encoding", "gzip")
            .POST(BodyPublishers.ofString("{}"))
            .build();
    fault(HTTP.send(lie, BodyHandlers.ofString()), 400);
  }

  private HttpResponse<String> gzipped(byte[] body) throws Exception {
    ByteArrayOutputStream packed = new ByteArrayOutputStream();
    try (GZIPOutputStream out = new GZIPOutputStream(packed)) {
      out.write(body);
    }
    HttpRequest request =
        HttpRequest.newBuilder(URI.create(base() + "/$validate"))
            .header("Content-Type", JSON)
            .header("Content-Encoding", "gzip")
            .POST(BodyPublishers.ofByteArray(packed.toByteArray()))
            .build();
    return HTTP.send(request, BodyHandlers.ofString());
  }

  @Test
  void validationAsAClientSendsIt() {
    Patient patient = new Patient();
    patient.addIdentifier().setSystem("not a uri ").setValue("1");
    OperationOutcome outcome =
        (OperationOutcome) client().validate().resource(patient).execute().getOperationOutcome();
    assertThat(outcome.getIssue()).isNotEmpty();
  }

  @Test
  void aFileIsTakenWithItsDeliveriesOrNotAtAll() throws Exception {
    String file = sample("deep-bite-one-step");
    String id = new JsonMapper().readTree(file).path("id").asString();
    HttpResponse<String> unknown =
        post("/treatments?to=hospital&to=moon", "application/json", file);
    assertThat(unknown.statusCode()).isEqualTo(422);
    assertThat(get("/treatments/" + id).statusCode()).isEqualTo(404);
    HttpResponse<String> taken = post("/treatments?to=hospital", "application/json", file);
    assertThat(taken.statusCode()).as(taken.body()).isEqualTo(201);
    JsonNode delivery = new JsonMapper().readTree(taken.body()).path("deliveries").get(0);
    assertThat(delivery.path("to").asString()).isEqualTo("hospital");
    assertThat(delivery.path("state").asString()).isEqualTo("queued");
    assertThat(get("/treatments/" + id + "/deliveries").body())
        .contains(delivery.path("delivery").asString().replace("/deliveries/", ""));
    HttpResponse<String> again =
        send(
            "PUT",
            "/treatments/" + id + "?to=hospital",
            "application/json",
            file,
            "If-Match",
            "\"1\"");
    assertThat(again.statusCode()).as(again.body()).isEqualTo(200);
    assertThat(new JsonMapper().readTree(again.body()).at("/deliveries/0/delivery"))
        .isEqualTo(delivery.path("delivery"));
  }

  @Test
  void aDeliveryThatMayNotGoIsToldWithItsReasons() throws Exception {
    HttpResponse<String> withheld =
        post(
            "/treatments?to=hospital",
            "application/json",
            sample("unsafe-bite-refused").replace("HL-2026-005", "HL-2026-905"));
    assertThat(withheld.statusCode()).as(withheld.body()).isEqualTo(201);
    JsonNode told = new JsonMapper().readTree(withheld.body()).path("deliveries").get(0);
    assertThat(told.path("state").asString()).isEqualTo("stopped");
    assertThat(told.path("findings").findValuesAsString("code")).contains("bite-share-exceeded");
  }

  @Test
  void anOperationNeedsNoTypeWhereItHasNoBody() throws Exception {
    String patient = bare(all("/Patient?identifier=P-10217").get(0));
    HttpResponse<String> document = ask("POST", "/" + patient + "/$treatment-summary");
    assertThat(read(document, Bundle.class).getType()).isEqualTo(Bundle.BundleType.DOCUMENT);
    fault(ask("POST", "/$validate"), 400);
    fault(ask("POST", ""), 415);
    assertThat(ask("POST", "/treatments/HL-2026-801/deliveries").statusCode()).isEqualTo(415);
  }

  private static String bundleOf(String sample) throws Exception {
    return Files.readString(Path.of("sample-bundles", sample + ".bundle.json"));
  }
}
