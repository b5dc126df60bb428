package org.intercusp.rules.review;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;

/** Reviews stand in the order of their dates, none before the first fitting. */
final class ReviewOrder implements Rule {

  static final String CODE = "review-order";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR)
        .compares("the date of each review with the one before it and with the first fitting")
        .limit(
            "not before the review above it, not before the first fitting, which the file must name"
                + " (days: at least 0)")
        .about("/reviews/*/date", "Bundle.entry.resource.ofType(Encounter).period.start")
        .remedy(
            "Correct the date, put the reviews in order, or record when the appliance was fitted.")
        .samples(
            Sample.failing("/reviews/2/date", "{\"/reviews/2/date\": \"2026-04-19\"}"),
            Sample.passing("{\"/reviews/2/date\": \"2026-04-20\"}"));
  }

  @Override
  public void check(Case about, Findings found) {
    LocalDate fitted = about.firstFitting().orElse(null);
    if (fitted == null) {
      unfitted(about, found);
    }
    LocalDate before = null;
    for (ReviewAt at : ReviewAt.all(about)) {
      LocalDate date = at.review().date();
      if (before != null && date.isBefore(before)) {
        report(found, at, date, before, "the review before it");
      }
      if (fitted != null && date.isBefore(fitted)) {
        report(found, at, date, fitted, "the first fitting");
      }
      before = date;
    }
  }

  /**
   * Said once, at the first review: without a fitting every review lies before it, and the rules of
   * wear and progress, which count from it, have nothing to say.
   */
  private static void unfitted(Case about, Findings found) {
    ReviewAt.all(about).stream()
        .findFirst()
        .ifPresent(
            at ->
                found
                    .error(at.at("date"), at.id())
                    .value("no fitting date")
                    .limit("the first fitting")
                    .keeping("fittings", 0)
                    .says(
                        "There is a review (%s), and no appliance has a fitting date."
                            .formatted(at.review().date())));
  }

  private static void report(
      Findings found, ReviewAt at, LocalDate date, LocalDate limit, String what) {
    found
        .error(at.at("date"), at.id())
        .value(date.toString())
        .limit(limit.toString())
        .keeping("days", ChronoUnit.DAYS.between(limit, date))
        .says("The review (%s) lies before %s (%s).".formatted(date, what, limit));
  }
}
