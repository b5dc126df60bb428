package org.intercusp.rules.outcome;

import java.util.OptionalInt;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Outcome.Phase;
import org.intercusp.treatment.OutcomeFindings;
import org.intercusp.treatment.Treatment;

/** The overjet has not come back after a year of retention. */
final class OutcomeRelapse implements Rule {

  static final String CODE = "outcome-relapse";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares(
            "the overjet at 12 months of retention with the overjet at the end (of the active phase,"
                + " where no findings of the end are recorded)")
        .limit("at most 1 mm more (published mean 0.67 mm)", Limit.RELAPSE)
        .about("/outcomes/*/findings/overjet", Outcomes.FINDINGS_PATH)
        .remedy("Ask about retainer wear; think of holding it longer.")
        .samples(
            Sample.failing("/outcomes/1/findings/overjet", OutcomeRelapse.sample("3.5")),
            Sample.passing(OutcomeRelapse.sample("3.0")));
  }

  private static String sample(String later) {
    return "{\"/outcomes\": ["
        + OutcomeSamples.outcome("O2", "2026-03-09", "end", "2")
        + ", "
        + OutcomeSamples.outcome("O3", "2026-07-13", "retention-12mo", later)
        + "]}";
  }

  @Override
  public void check(Case about, Findings found) {
    Treatment treatment = about.treatment();
    OptionalInt later = Outcomes.withFindings(treatment, Phase.RETENTION_12_MONTHS);
    OptionalInt end = Outcomes.withFindings(treatment, Phase.END);
    OptionalInt from = end.isPresent() ? end : Outcomes.withFindings(treatment, Phase.END_ACTIVE);
    if (later.isEmpty() || from.isEmpty()) {
      return;
    }
    OutcomeFindings before = treatment.outcomes().get(from.getAsInt()).findings();
    Outcome held = treatment.outcomes().get(later.getAsInt());
    OutcomeFindings after = held.findings();
    if (before == null || after == null) {
      return;
    }
    Length limit = about.limits().length(Limit.RELAPSE);
    Length back = after.overjet().minus(before.overjet());
    if (back.isAbove(limit)) {
      found
          .warning(Pointer.of("outcomes", later.getAsInt(), "findings", "overjet"), held.id())
          .value("overjetReturn", back)
          .limit(Limit.RELAPSE)
          .borderlineWithin(back.minus(limit).asDouble(), about.u() * Math.sqrt(2))
          .says(
              "The overjet has come back by %s in retention; the published mean is 0.67 mm."
                  .formatted(Shown.of(back)));
    }
  }
}
