package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.StringType;
import org.intercusp.web.Knock;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What callers do wrong is told as theirs, in the form of the path they called. */
class WrongRequestsTest extends FhirService {

  private static final String STORED = "/treatments/HL-2026-801";

  @ParameterizedTest
  @CsvSource({
    "/treatments?count=abc, count",
    STORED + "?version=abc, version",
    "/deliveries?count=abc, count",
    "/deliveries?offset=abc, offset",
    "/registry/report?cut-off=tomorrow, cut-off"
  })
  void aParameterIsNamedAndItsValueIsNot(String path, String parameter) throws IOException {
    Knock.Reply reply = Knock.at(port, "GET", path).reply();
    problem(reply);
    assertThat(reply.body()).contains("\"" + parameter + " ").doesNotContain("abc", "tomorrow");
  }

  @ParameterizedTest
  @CsvSource({
    "POST, /check",
    "POST, /treatments",
    "PUT, " + STORED,
    "POST, " + STORED + "/deliveries",
    "POST, " + STORED + "/erasure"
  })
  void noBodyIsTheCallersFault(String method, String path) throws IOException {
    problem(Knock.at(port, method, path).with("If-Match", "\"1\"").json("").reply());
  }

  @Test
  void aBodyThatIsNotJsonIsTheCallersFault() throws IOException {
    Knock.Reply reply = Knock.at(port, "POST", STORED + "/erasure").json("{bad").reply();
    problem(reply);
    assertThat(reply.body()).doesNotContain("bad");
  }

  private static void problem(Knock.Reply reply) {
    assertThat(reply.status()).as(reply.body()).isEqualTo(400);
    assertThat(reply.header("Content-Type")).startsWith("application/problem+json");
  }

  @ParameterizedTest
  @ValueSource(strings = {"null", "\"\"", "{\"a\": 1}"})
  void aProfileWithoutTextIsNone(String profile) throws Exception {
    OperationOutcome told =
        fault(
            post(
                "",
                "application/fhir+json",
                "{\"resourceType\": \"Bundle\", \"meta\": {\"profile\": [" + profile + "]}}"),
            422);
    assertThat(told.getIssueFirstRep().getExpression())
        .extracting(StringType::getValue)
        .containsExactly("Bundle");
  }

  @ParameterizedTest
  @CsvSource({"'', 422", "/Bundle/$validate, 400"})
  void whatIsWrongWithAResourceSaysWithWhich(String path, int status) throws Exception {
    OperationOutcome told =
        fault(post(path, "application/fhir+json", "{\"resourceType\": \"Patient\"}"), status);
    assertThat(told.getIssueFirstRep().getExpression())
        .extracting(StringType::getValue)
        .containsExactly("Patient");
  }

  @Test
  void aParameterThatNoneMayBeCalledIsTheCallersFault() throws Exception {
    fault(post("/Patient/_search", "application/x-www-form-urlencoded", "\0"), 400);
  }

  @Test
  void theTrailTellsOfItsParametersInFhir() throws IOException {
    Knock.Reply reply = Knock.at(port, "GET", "/fhir/AuditEvent?_count=abc").reply();
    assertThat(reply.status()).isEqualTo(400);
    assertThat(reply.header("Content-Type")).startsWith("application/fhir+json");
    assertThat(reply.body()).contains("OperationOutcome", "_count").doesNotContain("abc");
  }
}
