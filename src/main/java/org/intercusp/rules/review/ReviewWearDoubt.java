package org.intercusp.rules.review;

import java.math.BigDecimal;
import java.time.temporal.ChronoUnit;
import org.intercusp.analysis.progress.OverjetCourse;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.rules.rule.Shown;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Tenderness;

/** Little wear shows in little change. */
final class ReviewWearDoubt implements Rule {

  static final String CODE = "review-wear-doubt";

  /** Hours are measured without a reading error; the overjets beside them are not. */
  private static final String NEARLY =
      " Borderline: within the reading error the change is enough.";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares(
            "measured wear (where none was measured: tenderness on retracting the jaw, from 8 weeks"
                + " after fitting) together with the overjet change since fitting, at the last review"
                + " of active stages that tells of either")
        .limit(
            "measured wear at least 8 h/d, or tenderness present; or an overjet change of at least"
                + " 1 mm",
            Limit.WEAR_DOUBT_BELOW,
            Limit.WEAR_DOUBT_AFTER,
            Limit.WEAR_DOUBT_CHANGE)
        .about(
            "/reviews/*/wearMeasured/hoursPerDay or /reviews/*/retractionTenderness",
            ReviewAt.observation("wear"))
        .remedy("Talk about wear without blame: comfort, speech, school, reminders.")
        .samples(
            Sample.failing(
                "/reviews/3/retractionTenderness",
                """
                {"/reviews/3/overjet": 7.5, "/reviews/3/retractionTenderness": "absent"}"""),
            Sample.passing(
                """
                {"/reviews/3/overjet": 7.0, "/reviews/3/retractionTenderness": "absent"}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    OverjetCourse course = OverjetCourse.of(about.treatment(), about.day()).result().orElse(null);
    if (course == null) {
      return;
    }
    Length enough = about.limits().length(Limit.WEAR_DOUBT_CHANGE);
    ReviewAt.lastThat(
            about,
            at -> course.reviews().contains(at.review()) && tells(course, at.review(), enough))
        .ifPresent(
            at -> {
              Length change = course.atFitting().minus(at.review().overjet());
              if (change.isBelow(enough)) {
                doubt(about, course, at, change, found);
              }
            });
  }

  /** Whether a review tells of wear: by a measurement, by tenderness, or by what has changed. */
  private static boolean tells(OverjetCourse course, Review review, Length enough) {
    return review.wearMeasured() != null
        || review.retractionTenderness() != null
        || !course.atFitting().minus(review.overjet()).isBelow(enough);
  }

  private static void doubt(
      Case about, OverjetCourse course, ReviewAt at, Length change, Findings found) {
    Review.WearMeasured wear = at.review().wearMeasured();
    Length missing = change.minus(about.limits().length(Limit.WEAR_DOUBT_CHANGE));
    double u = about.u() * Math.sqrt(2);
    long days = ChronoUnit.DAYS.between(course.fitted(), at.review().date());
    BigDecimal after = about.limits().of(Limit.WEAR_DOUBT_AFTER).multiply(BigDecimal.valueOf(7));
    if (wear != null && wear.hoursPerDay().isBelow(about.limits().hours(Limit.WEAR_DOUBT_BELOW))) {
      found
          .warning(at.at("wearMeasured", "hoursPerDay"), at.id())
          .value("wearMeasured", wear.hoursPerDay())
          .limit(Limit.WEAR_DOUBT_BELOW)
          .keeping("overjetChange", change.value())
          .says(
              "%s h a day were measured, and the overjet %s since fitting."
                      .formatted(Shown.of(wear.hoursPerDay().value()), moved(change))
                  + (Math.abs(missing.asDouble()) <= u ? NEARLY : ""));
    } else if (wear == null
        && at.review().retractionTenderness() == Tenderness.ABSENT
        && BigDecimal.valueOf(days).compareTo(after) >= 0) {
      found
          .warning(at.at("retractionTenderness"), at.id())
          .value("overjetChange", change)
          .limit(Limit.WEAR_DOUBT_CHANGE)
          .notingChange(Limit.WEAR_DOUBT_AFTER)
          .borderlineWithin(missing.asDouble(), u)
          .says(
              "No tenderness on retracting the jaw, and the overjet %s since fitting."
                  .formatted(moved(change)));
    }
  }

  private static String moved(Length change) {
    return change.isBelow(Length.ZERO)
        ? "has grown by " + Shown.of(change.negated())
        : "has shrunk by " + Shown.of(change);
  }
}
