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

/** The jaw comes forward without going aside. */
final class BiteMidline implements Rule {

  static final String CODE = "bite-midline";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("the lower midline in the bite with the lower midline in habitual occlusion")
        .limit("moves by at most 1 mm to either side", Limit.MIDLINE_SHIFT)
        .about("/bites/*/lowerMidlineInBite", BiteAt.component("bite-midline"))
        .remedy("Register again with the midlines as in habitual occlusion, or say why not.")
        .samples(
            Sample.failing(
                "/bites/0/lowerMidlineInBite",
                """
                {"/bites/0/lowerMidlineHabitual": 0.5, "/bites/0/lowerMidlineInBite": -1}"""),
            Sample.passing(
                """
                {"/bites/0/lowerMidlineHabitual": 0.5, "/bites/0/lowerMidlineInBite": -0.5}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    Length limit = about.limits().length(Limit.MIDLINE_SHIFT);
    for (BiteAt at : BiteAt.standing(about)) {
      Length habitual = at.bite().lowerMidlineHabitual();
      Length inBite = at.bite().lowerMidlineInBite();
      if (habitual == null || inBite == null) {
        continue;
      }
      Length moved = inBite.minus(habitual);
      if (moved.absolute().isAbove(limit)) {
        found
            .warning(at.at("lowerMidlineInBite"), at.id())
            .value("midlineShift", moved)
            .limit(Limit.MIDLINE_SHIFT)
            .borderlineWithin(
                moved.absolute().minus(limit).asDouble(), at.computed().differenceUncertainty())
            .says(
                "The lower midline moves %s to the patient's %s in the bite."
                    .formatted(
                        Shown.of(moved.absolute()), moved.isAbove(Length.ZERO) ? "right" : "left"));
      }
    }
  }
}
