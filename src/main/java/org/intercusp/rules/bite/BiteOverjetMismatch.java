package org.intercusp.rules.bite;

import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;

/** The overjet in the bite agrees with the readings of the scale. */
final class BiteOverjetMismatch implements Rule {

  static final String CODE = "bite-overjet-mismatch";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares(
            "overjetInBite with overjetHabitual minus the step from habitual to registered reading")
        .limit("a difference of at most 1 mm either way", Limit.BITE_OVERJET_TOLERANCE)
        .about("/bites/*/overjetInBite", BiteAt.component("bite-overjet"))
        .remedy("Measure the overjet in the bite again, or read the scale again.")
        .samples(
            Sample.failing("/bites/0/overjetInBite", "{\"/bites/0/overjetInBite\": 2.1}"),
            Sample.passing("{\"/bites/0/overjetInBite\": 2.0}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Length limit = about.limits().length(Limit.BITE_OVERJET_TOLERANCE);
    for (BiteAt at : BiteAt.all(about)) {
      Length off = at.computed().unexplained().absolute();
      if (off.isAbove(limit)) {
        found
            .warning(at.at("overjetInBite"), at.id())
            .value("difference", at.computed().unexplained())
            .limit(Limit.BITE_OVERJET_TOLERANCE)
            .borderlineWithin(off.minus(limit).asDouble(), at.computed().unexplainedUncertainty())
            .says(
                "The overjet in the bite is recorded as %s; the readings explain %s."
                    .formatted(
                        Shown.of(at.bite().overjetInBite()),
                        Shown.of(at.computed().explainedOverjet())));
      }
    }
  }
}
