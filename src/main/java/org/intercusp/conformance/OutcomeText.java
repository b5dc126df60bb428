package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import java.util.Collection;
import java.util.List;
import org.intercusp.finding.Finding;

/** OperationOutcomes as JSON text, for doors that need no model of them. */
public final class OutcomeText {

  private final FhirContext context;
  private final Outcomes outcomes;

  public OutcomeText(FhirContext context, Outcomes outcomes) {
    this.context = context;
    this.outcomes = outcomes;
  }

  /** Of what a validation found. */
  public String ofIssues(Collection<Issue> issues) {
    return context.newJsonParser().encodeResourceToString(outcomes.of(issues));
  }

  /** Of what a check of a treatment file found. */
  public String ofFindings(List<Finding> findings) {
    return context.newJsonParser().encodeResourceToString(outcomes.ofFindings(findings));
  }
}
