package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import org.intercusp.web.Knock.Reply;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;

/** What is refused before a door is reached is told in the words and the form of the doors. */
class PlainRefusalsTest extends OpenServiceBase {

  @ParameterizedTest
  @CsvSource({
    "GET, /fhir/Patient/a%2Fb, 400",
    "GET, /fhir/Patient/%zz, 400",
    "GET, /treatments/a%2Fb, 400",
    "GET, /treatments/%zz, 400",
    "GET, /treatments?after=%, 400",
    "GET, /treatments?after=[{}], 400",
    "GET, /actuator/health?x=%, 400",
    "GET, /fhir/Patient?_id=%, 400",
    "TRACE, /fhir/metadata, 405",
    "TRACE, /treatments, 405",
    "ANYTHING, /treatments, 400"
  })
  void theServersOwnRefusalsHaveOurForm(String method, String path, int status) throws IOException {
    Reply reply = knock(method, path).reply();
    assertThat(reply.status()).isEqualTo(status);
    boolean fhir = path.startsWith("/fhir");
    JsonNode body = json(reply);
    assertThat(reply.header("Content-Type"))
        .startsWith(fhir ? "application/fhir+json" : "application/problem+json");
    if (fhir) {
      assertThat(body.at("/issue/0/details/text").asString()).isNotBlank();
    } else {
      assertThat(body.path("status").asInt()).isEqualTo(status);
      assertThat(body.path("detail").asString()).isNotBlank();
      assertThat(body.path("findings").isArray()).isTrue();
    }
    assertThat(reply.body()).doesNotContainIgnoringCase("<html", "timestamp");
  }

  /** Without the lengths of the pieces it may come in. */
  private JsonNode json(Reply reply) {
    String body = reply.body();
    return json.readTree(body.substring(body.indexOf('{'), body.lastIndexOf('}') + 1));
  }

  /** Its length is not said beforehand, so it is read until it is too long. */
  @Test
  void whatIsCutOffIsToldUnderItsNumber() throws Exception {
    String id = UUID.randomUUID().toString();
    byte[] much = " ".repeat((32 << 20) + 1).getBytes(StandardCharsets.UTF_8);
    HttpRequest request =
        HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + "/check"))
            .header("Content-Type", "application/json")
            .header("X-Request-Id", id)
            .POST(BodyPublishers.ofInputStream(() -> new ByteArrayInputStream(much)))
            .build();
    HttpResponse<String> answer = HttpClient.newHttpClient().send(request, BodyHandlers.ofString());
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(413);
    assertThat(answer.headers().firstValue("X-Request-Id")).contains(id);
  }

  @Test
  void thePageOfFaultsIsNoFault() throws IOException {
    Reply reply = knock("GET", "/error").reply();
    assertThat(reply.status()).isEqualTo(404);
    assertThat(reply.header("Content-Type")).startsWith("application/problem+json");
  }

  @ParameterizedTest
  @CsvSource({
    "/check, text/plain, application/json or text/csv",
    "/check, application/fhir+json, application/json or text/csv",
    "/registry/outcomes, text/csv, application/json or application/x-ndjson or application/ndjson",
    "/import, application/json, application/zip",
    "/fhir/Patient/_search, application/fhir+json, application/x-www-form-urlencoded"
  })
  void whatAPathTakesIsSaid(String path, String sent, String takes) throws IOException {
    Reply reply = knock("POST", path).with("Content-Type", sent).json("{}").reply();
    assertThat(reply.status()).isEqualTo(415);
    assertThat(reply.body()).contains("This path takes " + takes + ".");
  }

  @ParameterizedTest
  @CsvSource({
    "/fhir/$validate, text/plain, 5, 415, not-supported",
    "/fhir/$validate, application/fhir+json, 99999999, 413, too-long"
  })
  void whatIsRefusedHasFhirsWordForIt(String path, String type, int length, int status, String code)
      throws IOException {
    Reply reply =
        knock("POST", path)
            .with("Content-Type", type)
            .with("Content-Length", Integer.toString(length))
            .reply();
    assertThat(reply.status()).isEqualTo(status);
    assertThat(json(reply).at("/issue/0/code").asString()).isEqualTo(code);
  }

  @Test
  void whatComesCompressedIsNotReadAsItIs() throws IOException {
    Reply reply = knock("POST", "/check").with("Content-Encoding", "gzip").json("{}").reply();
    assertThat(reply.status()).isEqualTo(415);
    assertThat(reply.body()).contains("Content-Encoding");
    Reply plain = knock("POST", "/check").with("Content-Encoding", "identity").json("{}").reply();
    assertThat(plain.status()).isEqualTo(400);
  }

  @ParameterizedTest
  @CsvSource({
    "/registry/report, image/png, text/csv",
    "/treatments, text/csv, application/json",
    "/pages/treatments/new, application/json, text/html"
  })
  void whatAPathAnswersIsSaid(String path, String wanted, String answers) throws IOException {
    Reply reply = knock("GET", path).with("Accept", wanted).reply();
    assertThat(reply.status()).isEqualTo(406);
    assertThat(reply.body()).contains(answers);
  }

  @ParameterizedTest
  @CsvSource({
    "GET, /treatments/nobody, 404",
    "GET, /nothing, 404",
    "DELETE, /treatments, 405",
    "PUT, /rules, 415",
    "POST, /pages/treatments/new, 403"
  })
  void aFaultHasItsListOfFindingsAlsoWhereNoneSaysMore(String method, String path, int status)
      throws IOException {
    Reply reply = knock(method, path).with("Content-Type", "text/odd").reply();
    assertThat(reply.status()).isEqualTo(status);
    JsonNode findings = json(reply).path("findings");
    assertThat(findings.isArray()).isTrue();
    assertThat(findings).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "/check, application/json, not-json",
    "/treatments, application/json, not-json",
    "/check, text/csv, not-csv",
    "/treatments, text/csv, not-csv"
  })
  void anEmptyFileIsUnreadableLikeEveryOther(String path, String type, String code)
      throws IOException {
    Reply reply = knock("POST", path).with("Content-Type", type).json("").reply();
    assertThat(reply.status()).isEqualTo(400);
    assertThat(json(reply).at("/findings/0/code").asString()).isEqualTo(code);
  }

  @ParameterizedTest
  @CsvSource({
    "/, text/html",
    "/pages/treatments/new, text/html",
    "/treatments, application/json",
    "/rules, application/json"
  })
  void whoAsksForNoKindGetsWhatThereIs(String path, String type) throws IOException {
    for (Knock knock : List.of(knock("GET", path), knock("GET", path).with("Accept", "*/*"))) {
      Reply reply = knock.reply();
      assertThat(reply.status()).isEqualTo(200);
      assertThat(reply.header("Content-Type")).startsWith(type);
    }
  }

  @ParameterizedTest
  @CsvSource({"/nothing", "/treatments/nobody", "/treatments/nobody/compare"})
  void aFaultIsToldOnAPageOnlyToWhoAsksForOne(String path) throws IOException {
    Reply program = knock("GET", path).with("Accept", "*/*").reply();
    assertThat(program.status()).isEqualTo(404);
    assertThat(program.header("Content-Type")).startsWith("application/problem+json");
    Reply browser = knock("GET", path).with("Accept", "text/html,*/*;q=0.8").reply();
    assertThat(browser.status()).isEqualTo(404);
    assertThat(browser.header("Content-Type")).startsWith("text/html");
  }

  @ParameterizedTest
  @CsvSource({
    "/fhir/Patient/1, GET, HEAD",
    "/fhir, POST,",
    "/fhir/$validate, POST,",
    "/fhir/metadata, GET, HEAD",
    "/fhir/$export/1, DELETE, GET"
  })
  void optionsAreWhatIsThere(String path, String one, String other) throws IOException {
    Reply reply = knock("OPTIONS", path).reply();
    assertThat(reply.status()).isEqualTo(204);
    Set<String> allowed = Set.of(reply.header("Allow").split(", "));
    assertThat(allowed).contains(one, "OPTIONS").doesNotContain("PUT", "PATCH", "TRACE");
    assertThat(other == null || allowed.contains(other)).isTrue();
    assertThat(knock("PUT", path).json("{}").reply().status()).isEqualTo(405);
    assertThat(knock("OPTIONS", "/fhir/Nothing").reply().status()).isEqualTo(404);
  }

  @ParameterizedTest
  @CsvSource({"PATCH, 405", "DELETE, 405", "OPTIONS, 200"})
  void aTreatmentAllowsWhatItTakes(String method, int status) throws IOException {
    Reply reply = knock(method, "/treatments/nobody").json("{}").reply();
    assertThat(reply.status()).isEqualTo(status);
    assertThat(Set.of(reply.header("Allow").split(", ?")))
        .contains("GET", "HEAD", "PUT")
        .doesNotContain("DELETE", "PATCH", "POST");
  }
}
