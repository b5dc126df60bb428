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

/** The mouth opens wide enough. */
final class ReviewOpening implements Rule {

  static final String CODE = "review-opening";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("maximum opening as last measured (distance of the edges plus overbite)")
        .limit("at least 35 mm", Limit.OPENING_LEAST)
        .about("/reviews/*/maximumOpening", ReviewAt.observation("maximum-opening"))
        .remedy("Examine the joints and muscles; measure again at the next visit.")
        .samples(
            Sample.failing("/reviews/3/maximumOpening", "{\"/reviews/3/maximumOpening\": 34.5}"),
            Sample.passing("{\"/reviews/3/maximumOpening\": 35}"));
  }

  @Override
  public void check(Case about, Findings found) {
    Length least = about.limits().length(Limit.OPENING_LEAST);
    ReviewAt at =
        ReviewAt.lastThat(about, each -> each.review().maximumOpening() != null).orElse(null);
    Length opening = at == null ? null : at.review().maximumOpening();
    if (at != null && opening != null && opening.isBelow(least)) {
      found
          .warning(at.at("maximumOpening"), at.id())
          .value("maximumOpening", opening)
          .limit(Limit.OPENING_LEAST)
          .borderlineWithin(opening.minus(least).asDouble(), about.u() * Math.sqrt(2))
          .says(
              "The mouth opens by %s; at least %s is usual."
                  .formatted(Shown.of(opening), Shown.of(least)));
    }
  }
}
