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

/** The bite is not so open that it can't be worn. */
final class BiteClearanceHigh implements Rule {

  static final String CODE = "bite-clearance-high";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("premolar clearance, and incisal clearance where the overbite is 2 mm or more")
        .limit(
            "premolars at most 8 mm; incisors at most 4 mm with an overbite of 2 mm or more",
            Limit.PREMOLAR_CLEARANCE_MOST,
            Limit.INCISAL_CLEARANCE_MOST,
            Limit.INCISAL_CLEARANCE_FROM_OVERBITE)
        .about("/bites/*/*", BiteAt.component("bite-incisal-clearance"))
        .remedy("Register the bite less open.")
        .samples(
            Sample.failing("/bites/0/incisalClearance", "{\"/bites/0/incisalClearance\": 4.5}"),
            Sample.passing("{\"/bites/0/incisalClearance\": 4.0}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Length deep = about.limits().length(Limit.INCISAL_CLEARANCE_FROM_OVERBITE);
    for (BiteAt at : BiteAt.standing(about)) {
      Length premolar = at.bite().premolarClearance();
      if (premolar != null) {
        high(about, at, "premolar", premolar, Limit.PREMOLAR_CLEARANCE_MOST, found);
      }
      if (!at.bite().overbiteHabitual().isBelow(deep)) {
        Length incisal = at.bite().incisalClearance();
        high(about, at, "incisal", incisal, Limit.INCISAL_CLEARANCE_MOST, found);
      }
    }
  }

  private static void high(
      Case about, BiteAt at, String where, Length clearance, Limit most, Findings found) {
    Length limit = about.limits().length(most);
    if (clearance.isAbove(limit)) {
      Findings.Draft draft =
          found
              .warning(at.at(where + "Clearance"), at.id())
              .value(where + "Clearance", clearance)
              .limit(most);
      if (most == Limit.INCISAL_CLEARANCE_MOST) {
        draft.notingChange(Limit.INCISAL_CLEARANCE_FROM_OVERBITE);
      }
      draft
          .borderlineWithin(clearance.minus(limit).asDouble(), about.u())
          .says(
              "The %s clearance in the bite is %s; at most %s is usual."
                  .formatted(where, Shown.of(clearance), Shown.of(limit)));
    }
  }
}
