package org.intercusp.rules.review;

import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;

/** The overjet is not reversed. */
final class ReviewOvercorrection implements Rule {

  static final String CODE = "review-overcorrection";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares("the overjet of the last review")
        .limit("at least 0 mm")
        .about("/reviews/*/overjet", ReviewAt.observation("32916-9"))
        .remedy(
            "Measure with the jaw held back; if it is reversed there too, reduce wear or go on to"
                + " the next stage.")
        .samples(
            Sample.failing("/reviews/3/overjet", "{\"/reviews/3/overjet\": -0.5}"),
            Sample.passing("{\"/reviews/3/overjet\": 0}"));
  }

  @Override
  public void check(Case about, Findings found) {
    ReviewAt.last(about)
        .filter(at -> at.review().overjet().isBelow(Length.ZERO))
        .ifPresent(
            at -> {
              Length overjet = at.review().overjet();
              found
                  .warning(at.at("overjet"), at.id())
                  .value("overjet", overjet)
                  .limit(Length.ZERO)
                  .borderlineWithin(overjet.asDouble(), about.u())
                  .says("The overjet is reversed: %s.".formatted(Shown.of(overjet)));
            });
  }
}
