package org.intercusp.rules.review;

import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;

/** The correction is real and not a posture. */
final class ReviewDualBite implements Rule {

  static final String CODE = "review-dual-bite";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares(
            "the overjet with the jaw held back, as last measured, with the overjet in habitual"
                + " occlusion")
        .limit("at most 2 mm more", Limit.DUAL_BITE)
        .about("/reviews/*/overjetRetruded", ReviewAt.observation("overjet-retruded"))
        .remedy("Go on with the active stage; measure with the jaw held back each time.")
        .samples(
            Sample.failing("/reviews/3/overjetRetruded", "{\"/reviews/3/overjetRetruded\": 7}"),
            Sample.passing("{\"/reviews/3/overjetRetruded\": 6.5}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Length limit = about.limits().length(Limit.DUAL_BITE);
    ReviewAt at =
        ReviewAt.lastThat(about, each -> each.review().overjetRetruded() != null).orElse(null);
    Length retruded = at == null ? null : at.review().overjetRetruded();
    if (at == null || retruded == null) {
      return;
    }
    Length difference = retruded.minus(at.review().overjet());
    if (difference.isAbove(limit)) {
      found
          .warning(at.at("overjetRetruded"), at.id())
          .value("difference", difference)
          .limit(Limit.DUAL_BITE)
          .borderlineWithin(difference.minus(limit).asDouble(), about.u() * Math.sqrt(2))
          .says(
              "With the jaw held back the overjet is %s larger (%s, habitually %s)."
                  .formatted(
                      Shown.of(difference), Shown.of(retruded), Shown.of(at.review().overjet())));
    }
  }
}
