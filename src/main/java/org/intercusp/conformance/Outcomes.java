package org.intercusp.conformance;

import java.util.Collection;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.OperationOutcome;
import org.hl7.fhir.r4.model.OperationOutcome.IssueSeverity;
import org.hl7.fhir.r4.model.OperationOutcome.IssueType;
import org.hl7.fhir.r4.model.OperationOutcome.OperationOutcomeIssueComponent;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Value;
import org.jspecify.annotations.Nullable;

/**
 * Says issues and findings as an OperationOutcome: the sentence in {@code details.text}, our code
 * in {@code details.coding}, the place in {@code expression} and never in {@code location}, which
 * FHIR has given up; line, column and the offending value in {@code diagnostics}.
 */
public final class Outcomes {

  /**
   * Our codes for what the guard and the validator say; a trade rule has the system of the rules.
   */
  static final String ISSUES = "/CodeSystem/conformance-issue";

  static final String RULES = "/CodeSystem/rule";

  private final String base;

  /**
   * @param base of our canonicals, without a slash at its end
   */
  public Outcomes(String base) {
    this.base = base;
  }

  /** An OperationOutcome of issues in their order; one that all went well where there is none. */
  public OperationOutcome of(Collection<Issue> issues) {
    OperationOutcome outcome = new OperationOutcome();
    issues.forEach(issue -> outcome.addIssue(component(issue)));
    return orAllWell(outcome);
  }

  /** An OperationOutcome of a check of a treatment file; the place is a JSON pointer into it. */
  public OperationOutcome ofFindings(List<Finding> findings) {
    OperationOutcome outcome = new OperationOutcome();
    findings.forEach(finding -> outcome.addIssue(component(finding)));
    return orAllWell(outcome);
  }

  /** A trade finding as an issue, at the FHIRPath it was read from. */
  static Issue issue(Finding finding, @Nullable String expression) {
    return new Issue(
        weight(finding.severity()),
        finding.severity() == Severity.REFUSED ? "invalid" : "business-rule",
        finding.code(),
        sentence(finding),
        expression,
        shown(finding),
        null,
        null);
  }

  private OperationOutcomeIssueComponent component(Issue issue) {
    OperationOutcomeIssueComponent component =
        component(issue.weight(), issue.type(), issue.rule(), issue.text());
    if (issue.expression() != null) {
      component.addExpression(issue.expression());
    }
    StringBuilder diagnostics = new StringBuilder();
    if (issue.line() != null && issue.column() != null) {
      diagnostics.append("line ").append(issue.line()).append(", column ").append(issue.column());
    }
    return diagnosed(component, diagnostics, issue.value());
  }

  private OperationOutcomeIssueComponent component(Finding finding) {
    Issue issue = issue(finding, null);
    OperationOutcomeIssueComponent component =
        component(issue.weight(), issue.type(), issue.rule(), issue.text());
    StringBuilder diagnostics = new StringBuilder();
    if (!finding.pointer().text().isEmpty()) {
      diagnostics.append("at ").append(finding.pointer().text());
    }
    return diagnosed(component, diagnostics, issue.value());
  }

  private OperationOutcomeIssueComponent component(
      Weight weight, String type, String rule, String text) {
    String system = rule.startsWith("guard-") || rule.startsWith("fhir-") ? ISSUES : RULES;
    CodeableConcept details = new CodeableConcept().setText(text);
    details.addCoding().setSystem(base + system).setCode(rule);
    return new OperationOutcomeIssueComponent()
        .setSeverity(IssueSeverity.fromCode(weight.code()))
        .setCode(IssueType.fromCode(type))
        .setDetails(details);
  }

  private static OperationOutcomeIssueComponent diagnosed(
      OperationOutcomeIssueComponent component, StringBuilder diagnostics, @Nullable String value) {
    if (value != null) {
      diagnostics.append(diagnostics.length() == 0 ? "" : "; ").append("value: ").append(value);
    }
    if (diagnostics.length() > 0) {
      component.setDiagnostics(diagnostics.toString());
    }
    return component;
  }

  private OperationOutcome orAllWell(OperationOutcome outcome) {
    if (!outcome.hasIssue()) {
      outcome.addIssue(
          component(
              Weight.INFORMATION,
              "informational",
              "fhir-nothing-found",
              "Nothing was found to say."));
    }
    return outcome;
  }

  // A sign of harm holds no delivery back, so it must not read as an error.
  private static Weight weight(Severity severity) {
    return switch (severity) {
      case REFUSED, ERROR -> Weight.ERROR;
      case URGENT, WARNING -> Weight.WARNING;
      case INFORMATION -> Weight.INFORMATION;
    };
  }

  private static String sentence(Finding finding) {
    String urgent = finding.severity() == Severity.URGENT ? "Urgent: " : "";
    String remedy = finding.remedy().isBlank() ? "" : " " + finding.remedy();
    return urgent + finding.message() + remedy;
  }

  private static @Nullable String shown(Finding finding) {
    Value value = finding.value();
    if (value == null) {
      return null;
    }
    return value.shown(finding.unit());
  }
}
