package org.intercusp.rules.review;

import java.math.BigDecimal;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import org.intercusp.analysis.progress.Expected;
import org.intercusp.analysis.progress.OverjetCourse;
import org.intercusp.analysis.progress.OverjetGoal;
import org.intercusp.analysis.progress.Progress;
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
import org.intercusp.treatment.Stage.Goal;

/** The overjet shrinks at no less than half the published rate. */
final class ReviewProgressSlow implements Rule {

  static final String CODE = "review-progress-slow";

  /** The overjet at which an active stage is usually left: common practice, no source. */
  private static final OverjetGoal USUAL_GOAL = new OverjetGoal(Length.of("3"));

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.WARNING)
        .compares(
            "the least-squares rate of overjet reduction from fitting, in an active stage whose"
                + " overjet goal is not reached (3 mm where the stage states none), while treatment"
                + " goes on")
        .limit(
            "at least 0.27 mm a month from 12 weeks after fitting (half the published 0.54, itself"
                + " common practice: "
                + Expected.SOURCE.citation()
                + ")",
            Limit.SLOW_RATE,
            Limit.SLOW_AFTER)
        .about("/reviews/*/overjet", ReviewAt.observation("32916-9"))
        .remedy("Ask about wear, look at the bite and the fit, and think of re-activation.")
        .samples(
            Sample.failing(
                "/reviews/3/overjet",
                """
                {"/reviews/0/overjet": 8, "/reviews/1/overjet": 8, "/reviews/2/overjet": 7.5,
                 "/reviews/3/overjet": 7}"""),
            Sample.passing(
                """
                {"/reviews/0/overjet": 8, "/reviews/1/overjet": 7.5, "/reviews/2/overjet": 7,
                 "/reviews/3/overjet": 6.5}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    ReviewAt last = ReviewAt.last(about).orElse(null);
    OverjetCourse course = OverjetCourse.of(about.treatment(), about.day()).result().orElse(null);
    if (last == null
        || course == null
        || !about.goesOn()
        || !course.reviews().contains(last.review())) {
      return;
    }
    long days = ChronoUnit.DAYS.between(course.fitted(), last.review().date());
    BigDecimal after = about.limits().of(Limit.SLOW_AFTER).multiply(BigDecimal.valueOf(7));
    Progress progress = course.progress(last.review()).result().orElse(null);
    if (progress == null
        || BigDecimal.valueOf(days).compareTo(after) < 0
        || !aboveGoal(about, last.review())) {
      return;
    }
    BigDecimal slow = about.limits().of(Limit.SLOW_RATE);
    if (progress.rate().compareTo(slow) < 0) {
      found
          .warning(last.at("overjet"), last.id())
          .value("rate", Progress.told(progress.rate()))
          .limit(Limit.SLOW_RATE)
          .notingChange(Limit.SLOW_AFTER)
          .borderlineWithin(
              progress.rate().subtract(slow).doubleValue(), readingError(about, progress))
          .says(
              "The overjet %s mm a month since fitting; a reduction of %s or more is wanted.%s"
                  .formatted(
                      course(Progress.told(progress.rate())),
                      Shown.of(slow),
                      interval(progress, slow)));
    }
  }

  private static String course(BigDecimal rate) {
    return rate.signum() < 0
        ? "grows by " + Shown.of(rate.negate())
        : "shrinks by " + Shown.of(rate);
  }

  /** Of two points the error of both readings is all that is known; from three on they tell. */
  private static double readingError(Case about, Progress progress) {
    return progress.interval().result().isPresent()
        ? 0
        : progress.readingUncertainty(about.error());
  }

  private static String interval(Progress progress, BigDecimal slow) {
    return progress
        .interval()
        .map(
            i ->
                " The 95 %% interval of the reduction is %s to %s.%s"
                    .formatted(
                        Shown.of(Progress.told(i.low())),
                        Shown.of(Progress.told(i.high())),
                        i.holds(slow) ? " Borderline: the limit lies within it." : ""))
        .result()
        .orElse("");
  }

  /**
   * A stage without a goal for the overjet is not one whose goal is reached; one that only states
   * how small it may become is.
   */
  private static boolean aboveGoal(Case about, Review review) {
    List<Goal> goals =
        about.stage(review.stageId()).stream()
            .flatMap(stage -> stage.goals().stream())
            .filter(goal -> goal.measure() == Goal.Measure.OVERJET)
            .toList();
    Optional<OverjetGoal> goal =
        goals.isEmpty() ? Optional.of(USUAL_GOAL) : OverjetGoal.among(goals);
    return goal.filter(each -> !each.isMetBy(review.overjet())).isPresent();
  }
}
