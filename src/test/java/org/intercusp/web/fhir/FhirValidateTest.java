package org.intercusp.web.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URLEncoder;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.OperationDefinition;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.OperationOutcome.IssueSeverity;
import org.hl7.fhir.r4.model.OperationOutcome.OperationOutcomeIssueComponent;
import org.hl7.fhir.r4.model.Parameters;
import org.intercusp.conformance.GuardLimits;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What {@code $validate} says of a resource that comes inside Parameters. */
class FhirValidateTest extends FhirService {

  private static final String JSON = "application/fhir+json";
  private static final String XML = "application/fhir+xml";
  private static final String OURS = "https://intercusp.example/fhir/StructureDefinition/";

  private static final String IN_JSON =
      """
      {"resourceType": "Parameters", "parameter": [
        {"name": "profile", "valueUri": "%s"},
        {"name": "resource", "resource": {
          "resourceType": "Patient",
          "nickname": "x",
          "gender": "unheard-of"}}]}
      """;

  private static final String IN_XML =
      """
      <Parameters xmlns="http://hl7.org/fhir">
        <parameter><name value="profile"/><valueUri value="%s"/></parameter>
        <parameter><name value="resource"/><resource><Patient>
          <nickname value="x"/>
          <gender value="unheard-of"/></Patient></resource></parameter>
      </Parameters>
      """;

  @ParameterizedTest
  @ValueSource(strings = {JSON, XML})
  void whatNoParserKeepsIsJudgedToo(String format) throws Exception {
    String sent =
        (format.equals(JSON) ? IN_JSON : IN_XML)
            .formatted("http://hl7.org/fhir/StructureDefinition/Patient");

    OperationOutcome outcome = judged(post("/$validate", format, sent));

    assertThat(outcome.getIssue())
        .anyMatch(
            issue ->
                issue.getDetails().getText().contains("nickname")
                    && issue.getSeverity() == IssueSeverity.ERROR)
        .anyMatch(
            issue ->
                issue
                        .getExpression()
                        .get(0)
                        .getValue()
                        .equals("Parameters.parameter[1].resource.gender")
                    && issue.getDiagnostics().startsWith("line " + (format.equals(JSON) ? 6 : 5))
                    && issue.getDiagnostics().endsWith("value: unheard-of"));
    Parameters parameters = read(format, sent.replace("unheard-of", "male"));
    for (OperationOutcomeIssueComponent issue : outcome.getIssue()) {
      String expression = issue.getExpression().get(0).getValue();
      assertThat(FHIR.newFhirPath().evaluate(parameters, expression, Base.class))
          .as(expression)
          .isNotEmpty();
    }
    assertThat(post("/Patient/$validate", format, sent).statusCode()).isEqualTo(200);
    fault(post("/Device/$validate", format, sent), 400);
  }

  private static Parameters read(String format, String text) {
    return (Parameters)
        (format.equals(JSON) ? FHIR.newJsonParser() : FHIR.newXmlParser()).parseResource(text);
  }

  @ParameterizedTest
  @ValueSource(strings = {OURS + "never-heard-of", "http://example.org/never", OURS + "patient|9"})
  void aProfileThatIsNotHeldIsAnError(String profile) throws Exception {
    OperationOutcome inside = judged(post("/$validate", JSON, IN_JSON.formatted(profile)));
    OperationOutcomeIssueComponent first = unknownProfile(inside, profile);
    assertThat(first.getExpression().get(0).getValue()).isEqualTo("Parameters.parameter[0].value");
    assertThat(first.getDiagnostics()).isEqualTo("line 2, column 35; value: " + profile);

    String query = "?profile=" + URLEncoder.encode(profile, StandardCharsets.UTF_8);
    unknownProfile(
        judged(post("/$validate" + query, JSON, "{\"resourceType\": \"Patient\"}")), profile);
  }

  private static OperationOutcomeIssueComponent unknownProfile(
      OperationOutcome outcome, String profile) {
    return outcome.getIssue().stream()
        .filter(issue -> issue.getDetails().getText().contains("'" + profile + "'"))
        .filter(issue -> issue.getSeverity() == IssueSeverity.ERROR)
        .filter(
            issue ->
                issue.getDetails().getCodingFirstRep().getCode().equals("fhir-unknown-profile"))
        .findFirst()
        .orElseThrow();
  }

  @ParameterizedTest
  @CsvSource({"5.0, 415", "4.3, 415", "4.0, 200", "4.0.1, 200"})
  void anotherReleaseIsNotJudgedAsThisOne(String release, int status) throws Exception {
    String patient = "{\"resourceType\": \"Patient\", \"gender\": \"male\"}";
    HttpResponse<String> answer = post("/$validate", JSON + ";fhirVersion=" + release, patient);
    assertThat(answer.statusCode()).as(answer.body()).isEqualTo(status);
    assertThat(answer.body().contains("FHIR 4.0")).isEqualTo(status == 415);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/Observation?code=x&_count=2",
        "/AuditEvent?colour=red&_count=2",
        "/_history?_count=100",
        "/_history?_count=3&colour=red",
        "/CarePlan/_history?colour=red"
      })
  void whatTheDoorAnswersPassesItsOwnJudgement(String path) throws Exception {
    OperationOutcome outcome = judged(post("/$validate", JSON, get(path).body()));
    assertThat(outcome.getIssue())
        .filteredOn(issue -> issue.getSeverity() == IssueSeverity.ERROR)
        .extracting(issue -> issue.getDetails().getText())
        .isEmpty();
  }

  @Test
  void whereNothingIsFoundThatHasACodeToo() throws Exception {
    String patient =
        """
        {"resourceType": "Basic", "code": {"text": "x"}, "text": {"status": "generated",
        "div": "<div xmlns=\\"http://www.w3.org/1999/xhtml\\">x</div>"}}
        """;
    OperationOutcomeIssueComponent only =
        judged(post("/$validate", JSON, patient)).getIssueFirstRep();
    assertThat(only.getDetails().getText()).isEqualTo("Nothing was found to say.");
    assertThat(only.getDetails().getCodingFirstRep().getCode()).isEqualTo("fhir-nothing-found");
  }

  @Test
  void whatItTakesIsWhatItsDefinitionSays() throws Exception {
    OperationDefinition definition =
        FHIR.newJsonParser()
            .parseResource(
                OperationDefinition.class,
                Files.readString(Path.of("profiles/OperationDefinition-validate.json")));
    assertThat(definition.getParameter())
        .extracting(one -> one.getUse().toCode() + " " + one.getName() + " " + one.getMax())
        .containsExactlyInAnyOrder(
            "in resource 1",
            "in profile " + GuardLimits.DEFAULT.profiles(),
            "in mode 1",
            "out return 1");
    String patient = "{\"resourceType\": \"Patient\", \"gender\": \"male\"}";
    String strict = "handling=strict";
    assertThat(post("/$validate?mode=create", JSON, patient, "Prefer", strict).statusCode())
        .isEqualTo(200);
    fault(post("/$validate?colour=red", JSON, patient, "Prefer", strict), 400);
  }

  @Test
  void whatIsAskedBesidesIsNamedOrRefused() throws Exception {
    String sent = IN_JSON.replace("\"profile\"", "\"usageContext\"");
    assertThat(judged(post("/$validate", JSON, sent)).getIssue())
        .anyMatch(
            issue ->
                issue.getDetails().getCodingFirstRep().getCode().equals("fhir-parameter")
                    && issue.getDiagnostics().contains("usageContext"));
    fault(post("/$validate", JSON, sent, "Prefer", "handling=strict"), 400);
    fault(
        post(
            "/$validate?profile=" + "a&profile=b".repeat(20),
            JSON,
            "{\"resourceType\": \"Patient\"}"),
        400);
    fault(
        post(
            "/$validate",
            JSON,
            "{\"resourceType\": \"Parameters\", \"parameter\": [{\"name\": \"resource\"}]}"),
        400);
  }

  private static OperationOutcome judged(java.net.http.HttpResponse<String> answer) {
    return fault(answer, 200);
  }
}
