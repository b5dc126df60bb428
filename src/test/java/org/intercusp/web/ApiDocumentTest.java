package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.intercusp.web.Knock.Reply;
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
    for (String id : List.of(ID, "nobody")) {
      String place = path.replace("{id}", id).replace("{number}", "1");
      Knock knock = knock(
              method.toUpperCase(java.util.Locale.ROOT), place);
      JsonNode body = operation.path("requestBody").path("content");
      if (method.equals("put") || method.equals("post")) {
        assertThat(body.size()).as(place).isPositive();
        knock.with("Content-Type", body.propertyNames().iterator().next()).json(sent);
      }
      answered(method + " " + place, operation, knock.reply());
      if (method.equals("put") || method.equals("post")) {
        knock.with("Content-Type", "image/png").json(sent);
        answered(method + " " + place, operation, knock.reply());
      }
      knock.with("If-Match", "\"7\"").with("If-None-Match", "\"1\"");
      answered(method + " " + place, operation, knock.reply());
      answered(method + " " + place, operation, knock(
              method.toUpperCase(java.util.Locale.ROOT), place + "?clinic=x&count=0&cut-off=x&to=nobody&as=x&for=x").json(sent).reply());
    }
  }

  private static void answered(String what, JsonNode operation, Reply reply) {
    JsonNode response = operation.path("responses").path(String.valueOf(reply.status()));
    assertThat(response.isMissingNode()).as(what + " answered " + reply.status() + reply.body()).isFalse();
    String type = reply.header("Content-Type").split(";")[0];
    if (!type.isEmpty()) {
      assertThat(response.path("content").propertyNames()).as(what).contains(type);
    }
  }

  @Test
  void itNamesNothingThatIsNotServed() throws IOException {
    JsonNode paths = json.readTree(get("/openapi")).path("paths");
    assertThat(paths.propertyNames()).noneMatch(path -> path.startsWith("/fhir"));
    assertThat(paths.path("/treatments/{id}").propertyNames())
        .containsExactlyInAnyOrder("get", "put");
  }
}
