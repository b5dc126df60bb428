package org.intercusp.rules.review;

import java.math.BigDecimal;
import java.time.temporal.ChronoUnit;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;

/** A patient in treatment is seen when due. */
final class ReviewOverdue implements Rule {

  static final String CODE = "review-overdue";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares(
            "the day with nextReviewOn of the last review, else with the stage's interval after it,"
                + " else with 14 days after fitting")
        .limit("at most 14 days past the day due", Limit.REVIEW_GRACE)
        .about(
            "/reviews/*/nextReviewOn or /reviews/* or /reviews",
            "Bundle.entry.resource.ofType(Encounter)")
        .remedy("Call the patient in.")
        .samples(
            Sample.failing(
                "/reviews/3/nextReviewOn", "{\"/reviews/3/nextReviewOn\": \"2026-07-05\"}"),
            Sample.passing("{\"/reviews/3/nextReviewOn\": \"2026-07-06\"}"));
  }

  @Override
  public void check(Case about, Findings found) {
    NextReview due = NextReview.of(about.treatment()).result().orElse(null);
    if (due == null) {
      return;
    }
    long late = ChronoUnit.DAYS.between(due.by(), about.day());
    if (BigDecimal.valueOf(late).compareTo(about.limits().of(Limit.REVIEW_GRACE)) <= 0) {
      return;
    }
    ReviewAt last = ReviewAt.last(about).orElse(null);
    Pointer at = last == null ? Pointer.of("reviews") : last.at();
    found
        .warning(
            due.stated() ? at.child("nextReviewOn") : at,
            last == null ? about.treatment().id() : last.id())
        .value("daysLate", late)
        .unit(Unit.DAY)
        .limit(Limit.REVIEW_GRACE)
        .says("A review was due by %s, %s ago.".formatted(due.by(), Unit.DAY.behind(late)));
  }
}
