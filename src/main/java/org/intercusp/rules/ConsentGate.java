package org.intercusp.rules;

import java.time.LocalDate;
import java.util.Optional;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.rules.consent.ConsentRules;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.Treatment;

/** Asks, before anything is sent, whether the patient's consent covers the recipient. */
public final class ConsentGate {

  /**
   * The refusal ({@code consent-missing}) where consent does not cover a delivery; no reason
   * overrides it.
   */
  public Optional<Finding> check(Treatment treatment, ConsentScope to, LocalDate on) {
    Case about = Case.of(treatment, on, Limits.USUAL).deliveredTo(to);
    return ConsentRules.all().stream()
        .flatMap(rule -> Findings.of(rule, about).stream())
        .filter(finding -> finding.severity() == Severity.REFUSED)
        .findFirst();
  }
}
