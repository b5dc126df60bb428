package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Withdrawal of consent, erasure, and a clinic's data as a whole, at the doors. */
class PatientRightsTest extends ExportServiceBase {

  private ObjectNode file(String id) {
    return (ObjectNode) json.readTree(GuardedService.ofA(id));
  }

  private void stored(ObjectNode file) throws IOException {
    mustBe(201, as(Program.A_FULL, "POST", "/treatments").json(file.toString()).reply());
  }

  private void echoHolds(String id, String type) {
    jdbc.sql(
            "insert into delivered_resource (recipient, clinic_system, clinic_value, treatment_id,"
                + " resource_type, search_parameter, identifier_system, identifier_value,"
                + " server_id, sent, stored, withdrawn) values ('echo', :system,"
                + " 'harbour-lane', :id, :type, 'identifier', 'urn:x', :type, '7', 'a', 'b', false)")
        .param("system", GuardedService.CLINICS)
        .param("id", id)
        .param("type", type)
        .update();
  }

  @Test
  void withdrawalIsToldAndShown() throws Exception {
    ObjectNode file = file("RIGHTS-1");
    stored(file);
    echoHolds("RIGHTS-1", "Patient");
    echoHolds("RIGHTS-1", "Consent");
    LocalDate today = LocalDate.now(java.time.ZoneId.systemDefault());
    ((ObjectNode) file.at("/patient/consent")).put("withdrawnOn", today.toString());

    JsonNode answer =
        read(
            mustBe(
                200,
                as(Program.A_FULL, "PUT", "/treatments/RIGHTS-1")
                    .with("If-Match", "\"1\"")
                    .json(file.toString())
                    .reply()));

    assertThat(answer.at("/deliveries/0/to").asString("")).isEqualTo("echo");
    assertThat(answer.at("/deliveries").size()).isEqualTo(1);
    // The record itself has dates out of order by now; the notice passes the validator all the
    // same.
    String place = answer.at("/deliveries/0/delivery").asString("");
    Instant end = Instant.now().plus(Duration.ofMinutes(2));
    while (!state(place).equals("refused")) {
      assertThat(Instant.now()).as(state(place)).isBefore(end);
      Thread.sleep(100);
    }
    String page =
        as(Program.A_READS, "GET", "/treatments/RIGHTS-1")
            .with("Accept", "text/html")
            .reply()
            .body();
    assertThat(page)
        .contains("Consent to pass the record on is withdrawn from " + today + " on.")
        .contains("refused by the recipient");
    String list =
        as(Program.A_READS, "GET", "/?q=RIGHTS-1").with("Accept", "text/html").reply().body();
    assertThat(list).contains("consent withdrawn");
    JsonNode refused =
        read(
            mustBe(
                409,
                as(Program.A_FULL, "POST", "/treatments/RIGHTS-1/deliveries")
                    .json("{\"to\": \"hospital\"}")
                    .reply()));
    assertThat(refused.toString()).contains("consent-missing");
  }

  @Test
  void aSheetThatWithdrawsConsentIsToldAsAnyOtherFiling() throws IOException {
    ObjectNode file = file("RIGHTS-3");
    stored(file);
    echoHolds("RIGHTS-3", "Patient");
    echoHolds("RIGHTS-3", "Consent");
    ((ObjectNode) file.at("/patient/consent"))
        .put("withdrawnOn", LocalDate.now(java.time.ZoneId.systemDefault()).toString());

    Knock.Reply sent =
        as(Program.A_FULL, "POST", "/treatments")
            .with("Content-Type", "text/csv")
            .json(ownRow(file))
            .reply();

    assertThat(read(mustBe(200, sent)).at("/treatments/0/outcome").asString(""))
        .isEqualTo("updated");
    JsonNode told = read(as(Program.A_FULL, "GET", "/treatments/RIGHTS-3/deliveries").reply());
    assertThat(told.toString()).contains("\"echo\"");
  }

  /** The row of the treatment itself, with its parts column by column. */
  private static String ownRow(ObjectNode file) {
    StringBuilder header = new StringBuilder("record,treatment");
    StringBuilder row = new StringBuilder("treatment,").append(file.path("id").stringValue());
    for (String part : List.of("asOf", "clinic", "clinician", "patient", "diagnosis")) {
      columns(part, file.path(part), header, row);
    }
    return header + "\n" + row + "\n";
  }

  private static void columns(String path, JsonNode node, StringBuilder header, StringBuilder row) {
    if (node.isObject()) {
      node.properties()
          .forEach(one -> columns(path + "." + one.getKey(), one.getValue(), header, row));
      return;
    }
    List<String> values = new ArrayList<>();
    (node.isArray() ? node : List.of(node)).forEach(one -> values.add(one.asString()));
    header.append(',').append(path);
    row.append(",\"").append(String.join("|", values)).append('"');
  }

  @Test
  void whatIsSentOnWithAFilingAsksForTheSameAsADelivery() throws IOException {
    ObjectNode file = file("RIGHTS-4");
    Knock.Reply narrow =
        as(Program.A_WRITES, "POST", "/treatments?to=echo").json(file.toString()).reply();
    assertThat(narrow.status()).isEqualTo(403);
    mustBe(404, as(Program.A_FULL, "GET", "/treatments/RIGHTS-4").reply());
    mustBe(201, as(Program.A_WRITES, "POST", "/treatments").json(file.toString()).reply());
    mustBe(
        403,
        as(Program.A_WRITES, "PUT", "/treatments/RIGHTS-4?to=echo")
            .with("If-Match", "\"1\"")
            .json(file.toString())
            .reply());
  }

  private String state(String place) throws IOException {
    return read(as(Program.A_FULL, "GET", place).reply()).path("state").asString("");
  }

  @Test
  void erasingAsksFirstAndTheIdIsNotUsedAgain() throws IOException {
    ObjectNode file = file("RIGHTS-2");
    stored(file);
    String path = "/treatments/RIGHTS-2/erasure";
    String yes = "{\"confirm\": \"RIGHTS-2\"}";
    Knock.Reply goesOn = as(Program.A_FULL, "POST", path).json(yes).reply();
    assertThat(goesOn.status()).isEqualTo(409);
    assertThat(goesOn.body()).contains("has not ended");
    file.putObject("completion")
        .put("status", "completed")
        .put("decidedOn", "2026-05-18")
        .put("lastAttendedOn", "2026-05-18");
    mustBe(
        200,
        as(Program.A_FULL, "PUT", "/treatments/RIGHTS-2")
            .with("If-Match", "\"1\"")
            .json(file.toString())
            .reply());

    JsonNode before = read(mustBe(200, as(Program.A_READS, "GET", path).reply()));
    assertThat(before.path("mayBeErased").asBoolean()).isTrue();
    assertThat(before.path("erased").asBoolean()).isFalse();
    assertThat(before.at("/goes/versions").asInt()).isEqualTo(2);
    mustBe(422, as(Program.A_FULL, "POST", path).json("{\"confirm\": \"RIGHTS-1\"}").reply());
    mustBe(403, as(Program.A_READS, "POST", path).json(yes).reply());
    mustBe(404, as(Program.B_FULL, "POST", path).json(yes).reply());
    mustBe(200, as(Program.A_FULL, "GET", "/treatments/RIGHTS-2").reply());
    String copy = begin(Program.A_FULL, "/fhir/$export");
    done(Program.A_FULL, copy);
    JsonNode erased = read(mustBe(200, as(Program.A_FULL, "POST", path).json(yes).reply()));

    assertThat(erased.path("erased").asBoolean()).isTrue();
    mustBe(404, as(Program.A_FULL, "GET", "/treatments/RIGHTS-2").reply());
    mustBe(404, as(Program.A_FULL, "GET", copy).reply());
    mustBe(404, as(Program.A_FULL, "GET", "/treatments/RIGHTS-2/history").reply());
    Knock.Reply again = as(Program.A_FULL, "POST", "/treatments").json(file.toString()).reply();
    assertThat(again.status()).isEqualTo(409);
    assertThat(again.body()).contains("was erased");
    Knock.Reply bySheet =
        as(Program.A_FULL, "POST", "/treatments")
            .with("Content-Type", "text/csv")
            .json(ownRow(file))
            .reply();
    assertThat(mustBe(409, bySheet).body()).contains("was erased");
    assertThat(as(Program.A_READS, "GET", "/fhir/AuditEvent?_count=200").reply().body())
        .contains("RIGHTS-2");
  }

  @Test
  void aClinicsDataComesWholeAndAloneAndAnOperatorMaySaveAll() throws Exception {
    HttpResponse<byte[]> ofA = zip(Program.A_READS, "GET", "/export", new byte[0]);
    assertThat(ofA.statusCode()).isEqualTo(200);
    String text = text(ofA.body());
    assertThat(text).contains(OF_A, SHARED, "manifest.json", "audit_event.ndjson");
    // What this clinic's own people searched for is theirs, whomever it was meant to find.
    String others = text.replaceAll("\"query\":\"[^\"]*\"", "");
    assertThat(others).doesNotContain(GuardedService.CANARIES).doesNotContain("quay-side");
    HttpResponse<byte[]> again = zip(Program.OPERATOR, "POST", "/import", ofA.body());
    assertThat(again.statusCode()).isEqualTo(422);
    assertThat(new String(again.body(), StandardCharsets.UTF_8)).contains("here already");
    assertThat(zip(Program.A_FULL, "POST", "/import", ofA.body()).statusCode()).isEqualTo(403);

    HttpRequest save =
        request(Program.OPERATOR, "/backup")
            .header("Content-Type", "application/json")
            .POST(HttpRequest.BodyPublishers.noBody())
            .build();
    byte[] saved =
        HttpClient.newHttpClient().send(save, HttpResponse.BodyHandlers.ofByteArray()).body();
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(saved))) {
      assertThat(zip.getNextEntry().getName()).isEqualTo("intercusp.mv.db");
      assertThat(zip.readAllBytes().length).isGreaterThan(100_000);
    }
  }

  private HttpRequest.Builder request(Program program, String path) throws IOException {
    return HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path))
        .header("Authorization", "Bearer " + token(program));
  }

  private HttpResponse<byte[]> zip(Program program, String method, String path, byte[] body)
      throws IOException, InterruptedException {
    HttpRequest request =
        request(program, path)
            .header("Content-Type", "application/zip")
            .method(method, HttpRequest.BodyPublishers.ofByteArray(body))
            .build();
    return HttpClient.newHttpClient().send(request, HttpResponse.BodyHandlers.ofByteArray());
  }

  private static String text(byte[] file) throws IOException {
    StringBuilder text = new StringBuilder();
    try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(file))) {
      for (ZipEntry one = zip.getNextEntry(); one != null; one = zip.getNextEntry()) {
        text.append(one.getName()).append('\n');
        text.append(new String(zip.readAllBytes(), StandardCharsets.UTF_8));
      }
    }
    return text.toString();
  }
}
