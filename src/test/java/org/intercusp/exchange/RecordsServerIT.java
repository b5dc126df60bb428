package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeFalse;

import java.io.BufferedReader;
import java.io.IOException;
import java.net.ConnectException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.UUID;
import org.assertj.core.api.Assertions;
import org.intercusp.app.demo.RecordsServerJar;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The servers themselves: that each is a FHIR R4 server, of its temper, and dies with its parent.
 */
class RecordsServerIT {

  private static final String SYSTEM = "https://harbourlane.example/records-server-it";
  private static final String SERVERS = "org.intercusp.exchange.RecordsServers#all";
  private static final JsonMapper JSON = new JsonMapper();

  private final HttpClient http =
      HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(5)).build();

  private String patientId = "";
  private String observationId = "";

  @BeforeEach
  void newIdentities() {
    patientId = "P-" + UUID.randomUUID();
    observationId = "O-" + UUID.randomUUID();
  }

  @ParameterizedTest
  @MethodSource(SERVERS)
  void saysWhatItCanDo(RecordsServers which) throws Exception {
    HttpResponse<String> answer = get(which.baseUrl(), "/metadata");

    assertThat(answer.statusCode()).isEqualTo(200);
    JsonNode statement = JSON.readTree(answer.body());
    assertThat(statement.path("resourceType").asString()).isEqualTo("CapabilityStatement");
    assertThat(statement.path("fhirVersion").asString()).isEqualTo("4.0.1");
    assertThat(statement.at("/rest/0/interaction").toString()).contains("transaction");
  }

  @ParameterizedTest
  @MethodSource(SERVERS)
  void takesTheSameTransactionTwiceAndStoresOneOfEach(RecordsServers which) throws Exception {
    JsonNode first = transaction(which.baseUrl(), 8);
    JsonNode patient = only(which.baseUrl(), "Patient", patientId);
    JsonNode observation = only(which.baseUrl(), "Observation", observationId);
    assertThat(status(first, 0)).startsWith("201");
    assertThat(status(first, 1)).startsWith("201");
    assertThat(observation.at("/subject/reference").asString())
        .isEqualTo("Patient/" + patient.path("id").asString());
    assertThat(observation.at("/valueQuantity/value").asInt()).isEqualTo(8);

    JsonNode second = transaction(which.baseUrl(), 8);
    assertThat(status(second, 0)).startsWith("200");
    assertThat(status(second, 1)).startsWith("200");
    assertThat(version(only(which.baseUrl(), "Patient", patientId)))
        .as("a conditional create that finds its patient leaves it alone")
        .isEqualTo(version(patient));
    JsonNode again = only(which.baseUrl(), "Observation", observationId);
    System.out.printf(
        "Records server %s: an identical conditional update makes %s%n",
        which, version(again).equals(version(observation)) ? "no new version" : "a new version");
    if (which == RecordsServers.PLAIN || which == RecordsServers.STRICT) {
      assertThat(version(again)).isEqualTo(version(observation));
    }

    transaction(which.baseUrl(), 7);
    JsonNode changed = only(which.baseUrl(), "Observation", observationId);
    assertThat(changed.path("id")).isEqualTo(observation.path("id"));
    assertThat(changed.at("/valueQuantity/value").asInt()).isEqualTo(7);
    assertThat(version(changed)).isNotEqualTo(version(again));
  }

  @Test
  void plainTakesWhatParsesAndLetsTheClientNameIt() throws Exception {
    assumeFalse(RecordsServers.given());
    URI base = RecordsServers.PLAIN.baseUrl();

    HttpResponse<String> named = put(base, "/Patient/" + patientId, namedPatient());
    HttpResponse<String> invalid = post(base, "/Observation", observationWithoutCode());

    assertThat(named.statusCode()).isEqualTo(201);
    assertThat(invalid.statusCode()).isEqualTo(201);
    assertThat(JSON.readTree(invalid.body()).path("id").asString()).containsOnlyDigits();
  }

  @Test
  void strictValidatesWritesGivesUuidsAndNamesThingsItself() throws Exception {
    assumeFalse(RecordsServers.given());
    URI base = RecordsServers.STRICT.baseUrl();

    HttpResponse<String> named = put(base, "/Patient/" + patientId, namedPatient());
    HttpResponse<String> invalid = post(base, "/Observation", observationWithoutCode());
    transaction(base, 8);

    assertThat(named.statusCode())
        .as("HAPI's way of refusing an id it did not give")
        .isEqualTo(404);
    assertThat(named.body()).contains("client-assigned IDs");
    assertThat(invalid.statusCode()).isEqualTo(422);
    assertThat(invalid.body()).contains("Observation.code");
    String given = only(base, "Patient", patientId).path("id").asString();
    assertThat(UUID.fromString(given)).hasToString(given);
  }

  @ParameterizedTest
  @ValueSource(strings = {"jar", "node"})
  void diesWithItsParent(String kind, @TempDir Path folder) throws Exception {
    assumeFalse(RecordsServers.given());
    if (kind.equals("node")) {
      NodeRecordsServer.command();
    }
    Process parent = parent(kind, folder.resolve("server.log"));
    try (BufferedReader said = parent.inputReader()) {
      String line = said.readLine();
      assertThat(line).as("what the parent says of its child").matches("\\d+ http://\\S+");
      ProcessHandle server =
          ProcessHandle.of(Long.parseLong(line.substring(0, line.indexOf(' ')))).orElseThrow();
      URI base = URI.create(line.substring(line.indexOf(' ') + 1));
      assertThat(get(base, "/metadata").statusCode()).isEqualTo(200);

      parent.destroyForcibly().waitFor();

      long killed = System.nanoTime();
      while (server.isAlive() && System.nanoTime() - killed < 10_000_000_000L) {
        Thread.sleep(20);
      }
      boolean outlived = server.isAlive();
      server.destroyForcibly();
      assertThat(outlived).as("alive 10 s after its parent was killed").isFalse();
      Assertions.assertThatThrownBy(() -> get(base, "/metadata"))
          .isInstanceOf(ConnectException.class);
    } finally {
      parent.destroyForcibly();
    }
  }

  private static Process parent(String kind, Path output) throws IOException {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-cp",
            System.getProperty("java.class.path"),
            "-D" + RecordsServerJar.PROPERTY + "=" + RecordsServerJar.ofBuild().jar(),
            RecordsServerParent.class.getName(),
            kind,
            output.toString())
        .redirectError(ProcessBuilder.Redirect.INHERIT)
        .start();
  }

  private JsonNode transaction(URI base, int overjet) throws Exception {
    HttpResponse<String> answer = post(base, "", bundle(overjet));
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
    return JSON.readTree(answer.body());
  }

  private JsonNode only(URI base, String type, String identifier) throws Exception {
    String token = URLEncoder.encode(SYSTEM + "|" + identifier, StandardCharsets.UTF_8);
    HttpResponse<String> answer = get(base, "/" + type + "?identifier=" + token);
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(200);
    JsonNode found = JSON.readTree(answer.body()).path("entry");
    assertThat(found).as("%s with identifier %s", type, identifier).hasSize(1);
    return found.get(0).path("resource");
  }

  private static String status(JsonNode bundle, int entry) {
    return bundle.at("/entry/" + entry + "/response/status").asString();
  }

  private static String version(JsonNode resource) {
    return resource.at("/meta/versionId").asString();
  }

  private HttpResponse<String> get(URI base, String path) throws Exception {
    return send(request(base, path).GET());
  }

  private HttpResponse<String> post(URI base, String path, String body) throws Exception {
    return send(request(base, path).POST(HttpRequest.BodyPublishers.ofString(body)));
  }

  private HttpResponse<String> put(URI base, String path, String body) throws Exception {
    return send(request(base, path).PUT(HttpRequest.BodyPublishers.ofString(body)));
  }

  private static HttpRequest.Builder request(URI base, String path) {
    return HttpRequest.newBuilder(URI.create(base + path))
        .timeout(Duration.ofSeconds(60))
        .header("Accept", "application/fhir+json")
        .header("Content-Type", "application/fhir+json")
        .header("Cache-Control", "no-cache");
  }

  private HttpResponse<String> send(HttpRequest.Builder request) throws Exception {
    return http.send(request.build(), HttpResponse.BodyHandlers.ofString());
  }

  private String namedPatient() {
    return "{\"resourceType\":\"Patient\",\"id\":\"" + patientId + "\"}";
  }

  private static String observationWithoutCode() {
    return "{\"resourceType\":\"Observation\",\"status\":\"final\"}";
  }

  private String bundle(int overjet) {
    String patient =
        "urn:uuid:" + UUID.nameUUIDFromBytes(patientId.getBytes(StandardCharsets.UTF_8));
    String observation =
        "urn:uuid:" + UUID.nameUUIDFromBytes(observationId.getBytes(StandardCharsets.UTF_8));
    return """
        {"resourceType": "Bundle", "type": "transaction", "entry": [
          {"fullUrl": "%1$s",
           "resource": {"resourceType": "Patient",
             "identifier": [{"system": "%3$s", "value": "%4$s"}],
             "name": [{"family": "Invented"}]},
           "request": {"method": "POST", "url": "Patient",
             "ifNoneExist": "identifier=%3$s%%7C%4$s"}},
          {"fullUrl": "%2$s",
           "resource": {"resourceType": "Observation", "status": "final",
             "identifier": [{"system": "%3$s", "value": "%5$s"}],
             "code": {"coding": [{"system": "http://loinc.org", "code": "32916-9"}]},
             "subject": {"reference": "%1$s"},
             "valueQuantity": {"value": %6$d, "unit": "mm",
               "system": "http://unitsofmeasure.org", "code": "mm"}},
           "request": {"method": "PUT", "url": "Observation?identifier=%3$s%%7C%5$s"}}]}
        """
        .formatted(patient, observation, SYSTEM, patientId, observationId, overjet);
  }
}
