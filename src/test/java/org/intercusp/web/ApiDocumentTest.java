package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.locks.LockSupport;
import java.util.stream.Stream;
import org.intercusp.web.Knock.Reply;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The OpenAPI document says what the service answers, and nothing else. */
class ApiDocumentTest extends OpenServiceBase {

  private static final String ID = "HL-2026-870";

  @Test
  void whatIsAnsweredStandsInIt() throws IOException {
    JsonNode document = json.readTree(get("/openapi"));
    assertThat(document.at("/info/title").asString()).isEqualTo("Intercusp");
    String file =
        Files.readString(Path.of("sample-bundles/deep-bite-one-step.treatment.json"))
            .replace("HL-2026-001", ID);
    assertThat(knock("POST", "/treatments").json(file).reply().status()).isEqualTo(201);
    JsonNode paths = document.path("paths");
    assertThat(paths.size()).isGreaterThan(20);
    for (Map.Entry<String, JsonNode> path : paths.properties()) {
      for (Map.Entry<String, JsonNode> one : path.getValue().properties()) {
        for (String sent : List.of("{}", "{\"to\": \"nobody\"}", "{\"confirm\": \"no\"}", file)) {
          tell(path.getKey(), one.getKey(), one.getValue(), sent);
        }
      }
    }
  }

  private void tell(String path, String method, JsonNode operation, String sent)
      throws IOException {
    String query = "?clinic=x&count=0&cut-off=x&to=nobody&as=x&for=x";
    for (String id : List.of(ID, "nobody")) {
      String place = path.replace("{id}", id).replace("{number}", "1");
      answered(operation, method, place, sent, Map.of());
      answered(operation, method, place, sent, Map.of("Content-Type", "image/png"));
      answered(operation, method, place, sent, Map.of("If-None-Match", "\"1\""));
      answered(operation, method, place, sent, Map.of("If-Match", "\"7\""));
      answered(operation, method, place + query, sent, Map.of());
      answered(operation, method, place, sent, Map.of("Host", "elsewhere.example"));
      answered("PATCH " + place, operation, knock("PATCH", place).json("{}").reply());
    }
  }

  private void answered(
      JsonNode operation, String method, String place, String sent, Map<String, String> headers)
      throws IOException {
    Knock knock = knock(method.toUpperCase(Locale.ROOT), place);
    if (!method.equals("get")) {
      JsonNode body = operation.path("requestBody").path("content");
      assertThat(body.size()).as(place).isPositive();
      knock.with("Content-Type", body.propertyNames().iterator().next()).json(sent);
    }
    headers.forEach(knock::with);
    answered(method + " " + place + " " + headers, operation, knock.reply());
  }

  private static void answered(String what, JsonNode operation, Reply reply) {
    JsonNode response = operation.path("responses").path(String.valueOf(reply.status()));
    assertThat(response.isMissingNode())
        .as(what + " answered " + reply.status() + reply.body())
        .isFalse();
    String type = reply.header("Content-Type").split(";", -1)[0];
    if (!type.isEmpty()) {
      assertThat(response.path("content").propertyNames()).as(what).contains(type);
    }
  }

  /** What was handed in is loaded behind the answer, and others look into the same inbox. */
  @AfterEach
  void everythingIsLoaded() throws IOException {
    Path inbox = DATA.resolve("registry/inbox");
    for (int i = 0; i < 600 && !isEmpty(inbox); i++) {
      LockSupport.parkNanos(100_000_000);
    }
    assertThat(isEmpty(inbox)).isTrue();
  }

  private static boolean isEmpty(Path directory) throws IOException {
    if (!Files.isDirectory(directory)) {
      return true;
    }
    try (Stream<Path> files = Files.list(directory)) {
      return files.findAny().isEmpty();
    }
  }

  @Test
  void everyPublishedSchemaIsNamed() throws IOException {
    String told = json.readTree(get("/openapi")).at("/info/description").asString();
    String readme = Files.readString(Path.of("README.md"));
    try (Stream<Path> schemas = Files.list(Path.of("src/main/resources/schema"))) {
      assertThat(schemas.map(each -> each.getFileName().toString()).toList())
          .hasSizeGreaterThan(3)
          .allMatch(told::contains)
          .allMatch(readme::contains);
    }
  }

  @Test
  void everyPathMayBeAskedAgainLater() throws IOException {
    JsonNode paths = json.readTree(get("/openapi")).path("paths");
    for (JsonNode path : paths) {
      for (JsonNode operation : path) {
        for (String status : List.of("429", "503")) {
          assertThat(operation.at("/responses/" + status + "/headers").propertyNames())
              .as(operation.path("operationId").asString())
              .containsExactly("Retry-After");
        }
      }
    }
    assertThat(paths.path("/registry/report").at("/get/responses/200/content").propertyNames())
        .contains("application/json", "text/html");
    assertThat(paths.path("/registry/outcomes").at("/post/requestBody/content").propertyNames())
        .containsExactly("application/x-ndjson", "application/ndjson", "application/json");
  }

  @Test
  void itNamesNothingThatIsNotServed() throws IOException {
    JsonNode paths = json.readTree(get("/openapi")).path("paths");
    assertThat(paths.propertyNames()).noneMatch(path -> path.startsWith("/fhir"));
    assertThat(paths.path("/treatments/{id}").propertyNames())
        .containsExactlyInAnyOrder("get", "put");
  }
}
