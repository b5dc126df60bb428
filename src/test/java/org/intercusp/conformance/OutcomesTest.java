package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.OperationOutcome.IssueSeverity;
import org.intercusp.fhir.Canonicals;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;
import org.intercusp.finding.Value;
import org.intercusp.measure.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class OutcomesTest {

  private static final Outcomes OUTCOMES = new Outcomes(Canonicals.RESERVED.base());

  private static Finding finding(Severity severity) {
    return new Finding(
        "bite-share-exceeded",
        severity,
        Pointer.of("bites", 0, "registeredReading"),
        "B1",
        Value.of(new BigDecimal("12.5")),
        null,
        Unit.MILLIMETRE,
        "Too far.",
        "Register less.",
        Source.COMMON_PRACTICE,
        Map.of());
  }

  @Test
  void anIssueKeepsPlaceCodeAndValueAndUsesNoLocation() {
    Issue issue =
        new Issue(Weight.FATAL, "too-costly", "guard-depth", "Too deep.", "a.b", "x", 3, 7);
    OperationOutcome outcome = OUTCOMES.of(List.of(issue));
    var said = outcome.getIssueFirstRep();
    assertThat(said.getSeverity()).isEqualTo(IssueSeverity.FATAL);
    assertThat(said.getCode().toCode()).isEqualTo("too-costly");
    assertThat(said.getDetails().getText()).isEqualTo("Too deep.");
    assertThat(said.getDetails().getCodingFirstRep().getCode()).isEqualTo("guard-depth");
    assertThat(said.getExpression().get(0).getValue()).isEqualTo("a.b");
    assertThat(said.getDiagnostics()).isEqualTo("line 3, column 7; value: x");
    assertThat(said.hasLocation()).isFalse();
  }

  @ParameterizedTest
  @CsvSource({
    "REFUSED, error",
    "ERROR, error",
    "URGENT, warning",
    "WARNING, warning",
    "INFORMATION, information"
  })
  void aFindingKeepsItsWeight(Severity severity, String expected) {
    var said = OUTCOMES.ofFindings(List.of(finding(severity))).getIssueFirstRep();
    assertThat(said.getSeverity().toCode()).isEqualTo(expected);
    assertThat(said.getDetails().getCodingFirstRep().getSystem())
        .isEqualTo("https://intercusp.example/fhir/CodeSystem/rule");
    assertThat(said.getDetails().getText()).contains("Too far. Register less.");
    assertThat(said.getDiagnostics()).isEqualTo("at /bites/0/registeredReading; value: 12.5 mm");
  }

  @Test
  void whatIsSaidConforms() {
    Issue warning =
        new Issue(Weight.WARNING, "code-invalid", "fhir-code", "A.", "a", null, null, null);
    for (OperationOutcome outcome :
        List.of(
            OUTCOMES.of(List.of(warning)),
            OUTCOMES.of(List.of()),
            OUTCOMES.ofFindings(List.of(finding(Severity.ERROR))))) {
      assertThat(Judges.stopping(Judges.SHARED.validate(outcome))).isEmpty();
    }
  }
}
