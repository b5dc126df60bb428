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

/** A bite goes forward by at most 10 mm at once. */
final class BiteStepLarge implements Rule {

  static final String CODE = "bite-step-large";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("registered minus habitual reading")
        .limit("at most 10 mm", Limit.BITE_STEP)
        .about("/bites/*/registeredReading", BiteAt.component("bite-registered-reading"))
        .remedy("Take the bite forward in two steps.")
        .samples(
            Sample.failing(
                "/bites/0/registeredReading",
                """
                {"/bites/0/registeredReading": 11.5, "/bites/0/maximumReading": 17.5,
                 "/bites/0/overjetHabitual": 11, "/bites/0/overjetInBite": 0.5}"""),
            Sample.passing(
                """
                {"/bites/0/registeredReading": 11.0, "/bites/0/maximumReading": 17.5,
                 "/bites/0/overjetHabitual": 11, "/bites/0/overjetInBite": 1}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    Length limit = about.limits().length(Limit.BITE_STEP);
    for (BiteAt at : BiteAt.standing(about)) {
      Length step = at.computed().step();
      if (step.isAbove(limit)) {
        found
            .warning(at.at("registeredReading"), at.id())
            .value("step", step)
            .limit(Limit.BITE_STEP)
            .borderlineWithin(step.minus(limit).asDouble(), at.computed().differenceUncertainty())
            .says(
                "The bite goes forward by %s at once; the limit is %s."
                    .formatted(Shown.of(step), Shown.of(limit)));
      }
    }
  }
}
