package org.intercusp.rules.bite;

import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.jspecify.annotations.Nullable;

/** The four readings of a bite run forward: retruded, habitual, registered, maximum. */
final class BiteReadingsOrder implements Rule {

  static final String CODE = "bite-readings-order";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .neverAcceptable()
        .compares("each reading of the sliding scale with the one before it")
        .limit("retruded <= habitual <= registered <= maximum, in mm; equal readings are in order")
        .about("/bites/*/*", BiteAt.component("bite-registered-reading"))
        .remedy("Read the scale again: it counts forward from one zero. Correct the record.")
        .samples(
            Sample.failing("/bites/0/maximumReading", "{\"/bites/0/maximumReading\": 6.5}"),
            Sample.passing(
                """
                {"/bites/0/retrudedReading": 1, "/bites/0/habitualReading": 1,
                 "/bites/0/overjetInBite": 1}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    for (BiteAt at : BiteAt.all(about)) {
      Length habitual = at.bite().habitualReading();
      Length registered = at.bite().registeredReading();
      pair(at, "retruded", at.bite().retrudedReading(), "habitual", habitual, found);
      pair(at, "habitual", habitual, "registered", registered, found);
      pair(at, "registered", registered, "maximum", at.bite().maximumReading(), found);
    }
  }

  private static void pair(
      BiteAt at,
      String behind,
      @Nullable Length back,
      String before,
      Length front,
      Findings found) {
    if (back != null && front.isBelow(back)) {
      found
          .error(at.at(before + "Reading"), at.id())
          .value(before, front)
          .limit(back)
          .keeping(behind, back.value())
          .says(
              "The %s reading (%s) lies behind the %s reading (%s)."
                  .formatted(before, Shown.of(front), behind, Shown.of(back)));
    }
  }
}
