package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;

/** The whole service on a real port with its embedded database: protections, then the paths. */
class DoorsTest extends OpenServiceBase {

  @ParameterizedTest
  @ValueSource(strings = {"evil.example", "127.0.0.1.evil.example"})
  void anotherHostGets421(String host) throws IOException {
    assertThat(knock("GET", "/").with("Host", host).reply().status()).isEqualTo(421);
  }

  @ParameterizedTest
  @ValueSource(strings = {"localhost", "127.0.0.1", "[::1]", "LOCALHOST:1234"})
  void loopbackNamesAreServed(String host) throws IOException {
    assertThat(knock("GET", "/rules").with("Host", host).reply().status()).isEqualTo(200);
  }

  @Test
  void aStateChangeOfAnotherOriginGets403() throws IOException {
    Knock.Reply reply =
        knock("POST", "/check").with("Origin", "http://evil.example").json("{}").reply();
    assertThat(reply.status()).isEqualTo(403);
    Knock.Reply cross =
        knock("POST", "/check").with("Sec-Fetch-Site", "cross-site").json("{}").reply();
    assertThat(cross.status()).isEqualTo(403);
    Knock.Reply own =
        knock("POST", "/check").with("Origin", "http://127.0.0.1:" + port).json("{}").reply();
    assertThat(own.status()).isEqualTo(400);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "junk"})
  void onlyJsonIsTaken(String type) throws IOException {
    assertThat(knock("POST", "/check").with("Content-Type", type).json("{}").reply().status())
        .isEqualTo(415);
  }

  @Test
  void aFormNeedsItsToken() throws IOException {
    Knock.Reply reply =
        knock("POST", "/pages/deliveries/none/retry")
            .with("Content-Type", "application/x-www-form-urlencoded")
            .json("a=b")
            .reply();
    assertThat(reply.status()).isEqualTo(403);
  }

  @Test
  void noOtherSiteMayReadOrFrame() throws IOException {
    Knock.Reply reply = knock("GET", "/rules").with("Origin", "http://evil.example").reply();
    assertThat(reply.header("Access-Control-Allow-Origin")).isEmpty();
    assertThat(reply.header("Content-Security-Policy")).contains("default-src 'none'");
    assertThat(reply.header("X-Frame-Options")).isEqualTo("DENY");
  }

  @ParameterizedTest
  @ValueSource(strings = {"/h2-console", "/actuator/env", "/actuator/heapdump", "/actuator/beans"})
  void nothingElseIsExposed(String path) throws IOException {
    assertThat(knock("GET", path).reply().status()).isEqualTo(404);
  }

  @ParameterizedTest
  @ValueSource(strings = {"/actuator/health", "/actuator/prometheus", "/openapi", "/rules"})
  void whatOperatorsExpectIsThere(String path) throws IOException {
    int status = knock("GET", path).with("Accept", "*/*").reply().status();
    // Out of service until the validator is warm, and in service from then on.
    for (int i = 0; i < 600 && status == 503; i++) {
      LockSupport.parkNanos(100_000_000);
      status = knock("GET", path).with("Accept", "*/*").reply().status();
    }
    assertThat(status).isEqualTo(200);
  }

  @Test
  void theDataDirectoryIsItsOwnersAlone() throws IOException {
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(DATA)))
        .isEqualTo("rwx------");
    assertThat(DATA).isNotEmptyDirectory();
  }

  @Test
  void forwardingHeadersAreIgnored() throws IOException {
    Knock.Reply reply =
        knock("POST", "/treatments")
            .with("X-Forwarded-Host", "evil.example")
            .json(sample("mixed-dentition"))
            .reply();
    assertThat(reply.status()).isEqualTo(201);
    assertThat(reply.header("Location")).startsWith("/treatments/");
  }

  @Test
  void anUnreadableFileIsExplainedAndNotKept() throws IOException {
    long before = total();
    Knock.Reply reply = knock("POST", "/treatments").json("{\"id\": 7, \"id\": 8}").reply();
    assertThat(reply.status()).isEqualTo(400);
    assertThat(reply.header("Content-Type")).startsWith("application/problem+json");
    JsonNode findings = json.readTree(reply.body()).path("findings");
    assertThat(findings.findValuesAsString("code"))
        .contains("missing-member", "duplicate-member", "wrong-type");
    assertThat(total()).isEqualTo(before);
  }

  @Test
  void aTreatmentIsTakenReplacedAndKeptWithItsHistory() throws IOException {
    String file = sample("unsafe-bite-refused");
    Knock.Reply taken = knock("POST", "/treatments").json(file).reply();
    assertThat(taken.status()).isEqualTo(201);
    assertThat(json.readTree(taken.body()).path("findings").findValuesAsString("code"))
        .contains("bite-share-exceeded");
    String place = taken.header("Location");
    assertThat(knock("POST", "/treatments").json(file).reply().status()).isEqualTo(409);

    assertThat(knock("PUT", place).json(file).reply().status()).isEqualTo(428);
    String changed = file.replaceFirst("\"family\"\\s*:\\s*\"[^\"]+\"", "\"family\": \"Changed\"");
    Knock.Reply put = knock("PUT", place).with("If-Match", "\"1\"").json(changed).reply();
    assertThat(put.status()).isEqualTo(200);
    assertThat(put.header("ETag")).isEqualTo("\"2\"");
    assertThat(knock("PUT", place).with("If-Match", "\"1\"").json(file).reply().status())
        .isEqualTo(412);
    assertThat(knock("DELETE", place).reply().status()).isEqualTo(405);
    assertThat(json.readTree(knock("GET", place + "/history").reply().body()).size()).isEqualTo(2);
    JsonNode first = json.readTree(knock("GET", place + "?version=1").reply().body());
    assertThat(first).isEqualTo(json.readTree(file));

    Knock.Reply refused =
        knock("POST", place + "/deliveries").json("{\"to\": \"hospital\"}").reply();
    assertThat(refused.status()).isEqualTo(409);
    assertThat(refused.body()).contains("bite-share-exceeded");
    assertThat(knock("POST", place + "/deliveries").json("{\"to\": \"moon\"}").reply().status())
        .isEqualTo(422);
    assertThat(knock("POST", place + "/deliveries").json("{}").reply().status()).isEqualTo(400);
    // An address is for the command line alone, even that of a configured recipient.
    String url = "http://127.0.0.1:9/fhir";
    assertThat(
            knock("POST", place + "/deliveries").json("{\"to\": \"" + url + "\"}").reply().status())
        .isEqualTo(422);
    assertThat(knock("POST", "/treatments?to=" + url).json("{}").reply().status()).isEqualTo(422);
  }

  @Test
  void thePageOfATreatmentShowsFindingsInWordsAndTheBite() throws IOException {
    Knock.Reply taken =
        knock("POST", "/treatments").json(sample("slow-progress-doubtful-wear")).reply();
    String page = knock("GET", taken.header("Location")).with("Accept", "text/html").reply().body();
    assertThat(page).contains("<svg").contains("aria-labelledby").contains("id=\"finding-1\"");
    assertThat(page).doesNotContain("<script");
  }

  @Test
  void aNameIsNeverMarkup() throws IOException {
    String file =
        sample("reduced-overbite-no-trimming")
            .replaceFirst(
                "(?s)(\"patient\".*?\"family\"\\s*:\\s*)\"[^\"]+\"",
                "$1\"<img src=x onerror=alert(1)>\"");
    Knock.Reply taken = knock("POST", "/treatments").json(file).reply();
    assertThat(taken.status()).isEqualTo(201);
    String page = knock("GET", taken.header("Location")).with("Accept", "text/html").reply().body();
    assertThat(page).doesNotContain("<img src=x").contains("&lt;img src=x");
  }

  @Test
  void theFhirDoorSaysWhatItDoesAndDoesIt() throws IOException {
    Knock.Reply metadata = knock("GET", "/fhir/metadata").reply();
    assertThat(metadata.status()).isEqualTo(200);
    assertThat(metadata.header("Content-Type")).startsWith("application/fhir+json");
    JsonNode statement = json.readTree(metadata.body());
    assertThat(statement.path("resourceType").asString()).isEqualTo("CapabilityStatement");
    assertThat(statement.at("/rest/0/operation").findValuesAsString("name"))
        .containsExactlyInAnyOrder("validate", "export");
    Knock.Reply reply =
        knock("POST", "/fhir/$validate")
            .with("Content-Type", "application/fhir+json")
            .json("{\"resourceType\": \"Patient\", \"birthDate\": \"2013-02-30\"}")
            .reply();
    assertThat(reply.status()).isEqualTo(200);
    assertThat(reply.body()).contains("OperationOutcome").contains("\"error\"");
    Knock.Reply elsewhere = knock("GET", "/fhir/Patient/1").reply();
    assertThat(elsewhere.status()).isEqualTo(404);
    assertThat(elsewhere.body()).contains("OperationOutcome");
    Knock.Reply broken =
        knock("POST", "/fhir/$validate").json("{\"resourceType\": \"Patient\"").reply();
    assertThat(broken.status()).isEqualTo(400);
  }

  @Test
  void aNameLongerThanTheArchiveTakesIsTheCallersFault() throws IOException {
    String file =
        sample("mixed-dentition")
            .replaceFirst(
                "(?s)(\"clinic\".*?\"value\"\\s*:\\s*)\"[^\"]+\"", "$1\"" + "x".repeat(300) + "\"");
    Knock.Reply reply = knock("POST", "/treatments").json(file).reply();
    assertThat(reply.status()).isEqualTo(422);
    assertThat(reply.body()).contains("300 characters");
    String clinic = "?clinic=urn:x%7C" + "y".repeat(300);
    assertThat(knock("GET", "/treatments/T1" + clinic).reply().status()).isEqualTo(422);
  }

  @Test
  void thePlaceOfATreatmentLeadsToItWhateverTheClinicIsCalled() throws IOException {
    String other =
        named(sample("mixed-dentition"), "BARRED", "Adeyemi")
            .replaceFirst("(?s)(\"clinic\".*?\"value\"\\s*:\\s*)\"[^\"]+\"", "$1\"harbour|lane\"");
    store("mixed-dentition", "BARRED");
    String place = knock("POST", "/treatments").json(other).reply().header("Location");
    assertThat(place).contains("clinic=").contains("harbour%7Clane");
    Knock.Reply reply = knock("GET", place).reply();
    assertThat(reply.status()).isEqualTo(200);
    assertThat(reply.body()).contains("harbour|lane");
  }

  private long total() throws IOException {
    return json.readTree(knock("GET", "/treatments").reply().body()).path("total").asLong();
  }

  @Test
  void outcomesAreTakenAndToldLineByLine() throws IOException, InterruptedException {
    String good =
        """
        {"format":"intercusp-outcome/1","kind":"case","submitter":{"system":"https://a.example/s",\
        "value":"one"},"submission":"S-1","clinic":{"system":"https://a.example/c","value":"one"},\
        "treatment":"T-1","patient":{"system":"https://a.example/p","value":"9434765919"},\
        "consent":{"recordedOn":"2023-05-01"},"course":{"birthDate":"2011-03-29","sex":"male",\
        "appliance":"twin-block","firstFittedOn":"2023-05-11","status":"in-treatment","reviews":3,\
        "breakages":0}}
        """;
    Knock.Reply reply =
        knock("POST", "/registry/outcomes")
            .with("Content-Type", "application/x-ndjson")
            .json(good + "{\"format\":1}\n")
            .reply();
    assertThat(reply.status()).isEqualTo(202);
    String place = reply.header("Location");
    JsonNode status = json.readTree(knock("GET", place).reply().body());
    for (int i = 0; i < 200 && !status.get("state").asString().equals("done"); i++) {
      Thread.sleep(100);
      status = json.readTree(knock("GET", place).reply().body());
    }
    assertThat(status.at("/counts/read").asInt()).isEqualTo(2);
    assertThat(status.at("/counts/new").asInt()).isEqualTo(1);
    assertThat(status.at("/counts/refused").asInt()).isEqualTo(1);
    assertThat(status.at("/refusals/0/line").asInt()).isEqualTo(2);
    assertThat(status.at("/refusals/0/code").asString()).isNotEmpty();
    assertThat(knock("GET", "/registry/outcomes/h-1").reply().status()).isEqualTo(404);
    try (var left = Files.list(DATA.resolve("registry/inbox"))) {
      assertThat(left).isEmpty();
    }
  }
}
