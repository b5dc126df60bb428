package org.intercusp.rules.bite;

import org.intercusp.analysis.plan.ActivationPlan;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;

/** A staged advance whose first step would hardly be worth an appliance. */
final class BiteFirstStepSmall implements Rule {

  static final String CODE = "bite-first-step-small";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("the first step of the activation plan where the path does not allow all in one")
        .limit("at least 5 mm in the first step", Limit.FIRST_STEP, Limit.SHARE_OF_PATH)
        .about("/bites/*/maximumReading", BiteAt.component("bite-maximum-reading"))
        .remedy("Let the patient practise the movement and register again, or plan another way.")
        .samples(
            Sample.failing(
                "/bites/0/maximumReading",
                """
                {"/bites/0/maximumReading": 8.5, "/bites/0/registeredReading": 5.5,
                 "/bites/0/overjetInBite": 3.5}"""),
            Sample.passing(
                """
                {"/bites/0/maximumReading": 9, "/bites/0/registeredReading": 6,
                 "/bites/0/overjetInBite": 3}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    Length least = about.limits().length(Limit.FIRST_STEP);
    for (BiteAt at : BiteAt.standing(about)) {
      ActivationPlan.Start start =
          new ActivationPlan.Start(
              at.bite().overjetHabitual(),
              at.computed().path(),
              at.computed().slideTaken(),
              Length.ZERO,
              at.bite().comfortable());
      Share limit = about.limits().share(Limit.SHARE_OF_PATH);
      Length needed = start.overjet();
      Length allowed = ActivationPlan.allowed(start, limit);
      boolean outOfReach = needed.isAbove(allowed) && start.path().isAbove(Length.ZERO);
      Length first =
          ActivationPlan.of(start, limit).result().map(ActivationPlan::first).orElse(Length.ZERO);
      if (outOfReach && needed.isAbove(Length.ZERO) && first.isBelow(least)) {
        found
            .warning(at.at("maximumReading"), at.id())
            .value("firstStep", first)
            .limit(Limit.FIRST_STEP)
            .notingChange(Limit.SHARE_OF_PATH)
            .says(
                "Of %s needed, the path allows a first step of %s."
                    .formatted(Shown.of(needed), Shown.of(first)));
      }
    }
  }
}
