package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.rest.client.api.IGenericClient;
import ca.uhn.fhir.rest.client.api.ServerValidationModeEnum;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.app.Intercusp;
import org.junit.jupiter.api.BeforeEach;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;

/**
 * The whole service on a real port with its embedded database and three of the samples; one for all
 * tests of the FHIR door.
 */
@SpringBootTest(
    classes = Intercusp.class,
    webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
    properties = {
      "intercusp.recipients.hospital.url=http://127.0.0.1:9/fhir",
      "intercusp.recipients.hospital.scope=hospital"
    })
abstract class FhirService {

  static final FhirContext FHIR = FhirContext.forR4Cached();
  static final HttpClient HTTP = HttpClient.newHttpClient();

  private static final List<String> STORED =
      List.of("stage-change", "allergy", "unsafe-bite-accepted");

  @LocalServerPort int port;

  @DynamicPropertySource
  static void settings(DynamicPropertyRegistry registry) {
    registry.add(
        "intercusp.data",
        () -> Path.of("target/fhir-door-data/" + System.nanoTime()).toAbsolutePath().toString());
  }

  @BeforeEach
  void stored() throws Exception {
    for (String name : STORED) {
      // 409 from the second test on: it is there.
      assertThat(post("/treatments", "application/json", sample(name)).statusCode()).isIn(201, 409);
    }
    // The one with an adverse event, under another id, since a test submits it under its own.
    String other = sample("deep-bite-one-step").replace("HL-2026-001", "HL-2026-801");
    assertThat(post("/treatments", "application/json", other).statusCode()).isIn(201, 409);
  }

  String base() {
    return "http://127.0.0.1:" + port + "/fhir";
  }

  IGenericClient client() {
    FHIR.getRestfulClientFactory().setServerValidationMode(ServerValidationModeEnum.NEVER);
    FHIR.getRestfulClientFactory().setSocketTimeout(60_000);
    return FHIR.newRestfulGenericClient(base());
  }

  static String sample(String name) throws IOException {
    return Files.readString(Path.of("sample-bundles", name + ".treatment.json"));
  }

  /** Below the base, or anywhere when absolute; headers as name, value, name, value. */
  HttpResponse<String> get(String path, String... headers) throws Exception {
    return ask("GET", path, headers);
  }

  HttpResponse<String> ask(String method, String path, String... headers) throws Exception {
    HttpRequest.Builder request = HttpRequest.newBuilder(uri(path));
    if (headers.length > 0) {
      request.headers(headers);
    }
    return HTTP.send(
        request.method(method, BodyPublishers.noBody()).build(), BodyHandlers.ofString());
  }

  HttpResponse<String> post(String path, String type, String body, String... headers)
      throws Exception {
    return send("POST", path, type, body, headers);
  }

  HttpResponse<String> send(String method, String path, String type, String body, String... headers)
      throws Exception {
    HttpRequest.Builder request = HttpRequest.newBuilder(uri(path)).header("Content-Type", type);
    if (headers.length > 0) {
      request.headers(headers);
    }
    return HTTP.send(
        request.method(method, BodyPublishers.ofString(body)).build(), BodyHandlers.ofString());
  }

  private URI uri(String path) {
    if (path.startsWith("http")) {
      return URI.create(path);
    }
    boolean ours = path.startsWith("/treatments") || path.startsWith("/actuator");
    return URI.create((ours ? base().replace("/fhir", "") : base()) + path);
  }

  static <R extends Resource> R read(HttpResponse<String> answer, Class<R> type) {
    boolean xml = type(answer).contains("xml");
    return type.cast(
        (xml ? FHIR.newXmlParser() : FHIR.newJsonParser()).parseResource(answer.body()));
  }

  static String type(HttpResponse<?> answer) {
    return answer.headers().firstValue("Content-Type").orElse("");
  }

  static String header(HttpResponse<?> answer, String name) {
    return answer.headers().firstValue(name).orElse("");
  }

  static Bundle bundle(HttpResponse<String> answer) {
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
    return read(answer, Bundle.class);
  }

  /** An OperationOutcome as this door writes them, and nothing of its inside. */
  static OperationOutcome fault(HttpResponse<String> answer, int status) {
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(status);
    assertThat(type(answer)).contains("fhir+");
    OperationOutcome outcome = read(answer, OperationOutcome.class);
    assertThat(outcome.getIssue()).isNotEmpty();
    outcome
        .getIssue()
        .forEach(
            issue -> {
              assertThat(issue.getDetails().getText()).isNotBlank();
              assertThat(issue.getDetails().getCodingFirstRep().getCode()).isNotBlank();
              assertThat(issue.getLocation()).isEmpty();
            });
    assertThat(answer.body()).doesNotContain("Exception", "org.", "java.", "tomcat", "Tomcat");
    return outcome;
  }

  List<Resource> all(String path) throws Exception {
    List<Resource> all = new ArrayList<>();
    Bundle page = bundle(get(path));
    while (true) {
      page.getEntry().forEach(entry -> all.add(entry.getResource()));
      if (page.getLink("next") == null || path.contains("_count=1&") || path.endsWith("_count=1")) {
        return all;
      }
      page = bundle(get(page.getLink("next").getUrl()));
    }
  }

  static String bare(Resource resource) {
    return resource.fhirType() + "/" + resource.getIdElement().getIdPart();
  }
}
