package org.intercusp.rules.consent;

import java.time.LocalDate;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Consent;
import org.intercusp.treatment.ConsentScope;
import org.jspecify.annotations.Nullable;

/** A record goes only where the patient's consent covers it. */
final class ConsentMissing implements Rule {

  static final String CODE = "consent-missing";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.REFUSED)
        .neverAcceptable()
        .compares("the scope of the recipient with the consent that stands on the day")
        .limit("consent given on or before the day, not withdrawn by it, for the recipient's scope")
        .about("/patient/consent", "Bundle.entry.resource.ofType(Consent)")
        .remedy("Ask for consent that covers this recipient and record it; nothing is sent before.")
        .samples(
            Sample.failing(
                    "/patient/consent",
                    """
                    {"/patient/consent/scope": ["laboratory", "registry"]}""")
                .deliveredTo(ConsentScope.HOSPITAL),
            Sample.passing("{\"/patient/consent/scope\": [\"hospital\"]}")
                .deliveredTo(ConsentScope.HOSPITAL));
  }

  @Override
  public void check(Case about, Findings found) {
    ConsentScope to = about.to();
    if (to == null) {
      return;
    }
    String why = why(about.treatment().patient().consent(), to, about.day());
    if (!why.isEmpty()) {
      found
          .report(Severity.REFUSED, Pointer.of("patient", "consent"), about.treatment().id())
          .value(why)
          .limit("consent for " + to.code())
          .says("The record may not go to a recipient of scope %s: %s.".formatted(to.code(), why));
    }
  }

  private static String why(@Nullable Consent consent, ConsentScope to, LocalDate day) {
    if (consent == null) {
      return "no consent is recorded";
    }
    if (!consent.given()) {
      return "consent was refused";
    }
    LocalDate withdrawn = consent.withdrawnOn();
    if (withdrawn != null && !withdrawn.isAfter(day)) {
      return "consent was withdrawn on " + withdrawn;
    }
    if (consent.recordedOn().isAfter(day)) {
      return "consent was recorded only on " + consent.recordedOn();
    }
    return consent.scope().contains(to) ? "" : "consent does not cover it";
  }
}
