package org.intercusp.web;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.Weight;
import org.intercusp.web.Issuer.Program;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.JsonNode;

/** Every reading, writing, disclosure and refusal leaves a record, or does not come about. */
class AuditTrailTest extends GuardedServiceBase {

  @Autowired JdbcClient jdbc;
  @Autowired Conformance conformance;

  @ParameterizedTest
  @CsvSource({
    "GET, /treatments, search-type, 0",
    "GET, /treatments/A-ONLY-1, read, 0",
    "GET, /treatments/A-ONLY-1/history, history-instance, 0",
    "GET, /treatments/A-ONLY-1/figures, read, 0",
    "GET, /treatments/A-ONLY-1/bundle, disclose, 0",
    "GET, /treatments/A-ONLY-1/summary, disclose, 0",
    "GET, /deliveries, search-type, 0",
    "GET, /fhir/AuditEvent, search-type, 0",
    "GET, /treatments/B-ONLY-1, refuse, 4",
    "GET, /actuator/prometheus, refuse, 4"
  })
  void whatIsDoneIsOnRecord(String method, String path, String deed, String outcome)
      throws IOException {
    Knock.Reply reply = as(Program.A_FULL, method, path).reply();
    String request = reply.header("X-Request-Id");
    List<JsonNode> of = of(request);
    assertThat(of)
        .extracting(one -> one.path("subtype").path(0).path("code").stringValue())
        .contains(deed);
    JsonNode one = of.get(0);
    assertThat(one.path("agent").path(0).path("altId").stringValue()).isEqualTo("a_full");
    assertThat(of).anyMatch(event -> event.path("outcome").stringValue().equals(outcome));
    assertThat(of.toString()).doesNotContain("dóttir", "P-10533", "Freya");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/treatments?count=1",
        "/?q=Frey%C3%A4+X&show=harm",
        "/deliveries?a=b",
        "/treatments/A-ONLY-1/history",
        "/treatments/A-ONLY-1/deliveries?x"
      })
  void byWhatSomethingWasSoughtIsOnRecord(String path) throws IOException {
    Knock.Reply reply =
        as(Program.A_FULL, "GET", path)
            .with("Accept", path.startsWith("/?") ? "text/html" : "application/json")
            .reply();
    assertThat(reply.status()).isEqualTo(200);
    assertThat(of(reply.header("X-Request-Id")))
        .filteredOn(event -> event.at("/subtype/0/code").asString().matches("search.*|history.*"))
        .isNotEmpty()
        .allSatisfy(
            event ->
                assertThat(event.at("/entity/0/query").asString())
                    .isEqualTo(
                        Base64.getEncoder().encodeToString(path.getBytes(StandardCharsets.UTF_8))));
  }

  @Test
  void whatIsOnRecordConformsToFhir() throws IOException {
    as(Program.A_FULL, "GET", "/treatments/" + OF_A + "/bundle").reply();
    as(Program.A_FULL, "GET", "/treatments/" + OF_B).reply();
    JsonNode bundle = read(as(Program.A_FULL, "GET", "/fhir/AuditEvent?_count=20").reply());
    List<String> faults = new ArrayList<>();
    bundle
        .path("entry")
        .forEach(
            entry ->
                conformance
                    .validate(json.writeValueAsBytes(entry.path("resource")), Format.JSON)
                    .stream()
                    .filter(issue -> issue.weight() != Weight.INFORMATION)
                    .filter(issue -> issue.weight() != Weight.WARNING)
                    .forEach(issue -> faults.add(issue.toString())));
    assertThat(bundle.path("entry").size()).isGreaterThan(1);
    assertThat(faults).isEmpty();
  }

  @Test
  void aPageOfRecordsIsFollowedByTheNext() throws IOException {
    for (int i = 0; i < 3; i++) {
      as(Program.A_FULL, "GET", "/treatments/" + OF_A).reply();
    }
    JsonNode first = read(as(Program.A_FULL, "GET", "/fhir/AuditEvent?_count=2").reply());
    String next = first.path("link").path(1).path("url").stringValue();
    String path = next.substring(next.indexOf("/fhir/"));
    JsonNode second = read(as(Program.A_FULL, "GET", path).reply());
    // A mark is no key: the other clinic goes on behind the place in its own trail.
    JsonNode other = read(as(Program.B_FULL, "GET", path).reply());
    assertThat(ids(other))
        .doesNotContainAnyElementsOf(ids(first))
        .doesNotContainAnyElementsOf(ids(second));
    assertThat(ids(second)).hasSize(2).doesNotContainAnyElementsOf(ids(first));
  }

  @Test
  void withoutARecordNothingIsReadOrWritten() throws IOException {
    jdbc.sql("alter table audit_event rename to audit_event_away").update();
    try {
      for (String path :
          List.of("/treatments", "/treatments/" + OF_A, "/treatments/" + OF_A + "/bundle")) {
        Knock.Reply read = as(Program.A_FULL, "GET", path).reply();
        assertThat(read.status()).as(path).isEqualTo(500);
        assertThat(read.body()).doesNotContain("dóttir", "audit_event");
      }
      assertThat(
              as(Program.A_FULL, "POST", "/treatments")
                  .json(GuardedService.ofA("UNRECORDED"))
                  .reply()
                  .status())
          .isEqualTo(500);
      assertThat(
              as(Program.A_FULL, "POST", "/treatments/" + OF_A + "/deliveries")
                  .json("{\"to\": \"hospital\"}")
                  .reply()
                  .status())
          .isEqualTo(500);
    } finally {
      jdbc.sql("alter table audit_event_away rename to audit_event").update();
    }
    assertThat(as(Program.A_FULL, "GET", "/treatments/UNRECORDED").reply().status()).isEqualTo(404);
    JsonNode deliveries =
        read(as(Program.A_FULL, "GET", "/treatments/" + OF_A + "/deliveries").reply());
    assertThat(deliveries.toString()).doesNotContain("hospital");
  }

  @Test
  void aRequestHasOneIdInAnswerAndTrailAndTakesOnlyWhatIsOne() throws IOException {
    String id = "0af76519-16cd-43dd-8448-eb211c80319c";
    Knock.Reply own =
        as(Program.A_FULL, "GET", "/treatments/" + OF_A).with("X-Request-Id", id).reply();
    assertThat(own.header("X-Request-Id")).isEqualTo(id);
    assertThat(of(id)).isNotEmpty();
    Knock.Reply name =
        as(Program.A_FULL, "GET", "/treatments/none").with("X-Request-Id", "Freya").reply();
    assertThat(name.header("X-Request-Id")).hasSize(36).isNotEqualTo("Freya");
  }

  private List<JsonNode> of(String request) throws IOException {
    List<JsonNode> found = new ArrayList<>();
    JsonNode bundle = read(as(Program.OPERATOR, "GET", "/fhir/AuditEvent?_count=30").reply());
    for (JsonNode entry : bundle.path("entry")) {
      if (entry.toString().contains(request)) {
        found.add(entry.path("resource"));
      }
    }
    return found;
  }

  private static List<String> ids(JsonNode bundle) {
    List<String> ids = new ArrayList<>();
    bundle.path("entry").forEach(e -> ids.add(e.path("resource").path("id").stringValue()));
    return ids;
  }
}
