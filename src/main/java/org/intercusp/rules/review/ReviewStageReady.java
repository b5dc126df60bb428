package org.intercusp.rules.review;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.intercusp.analysis.stage.StageDates;
import org.intercusp.finding.Severity;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.BothSides;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage.Goal;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.StageKind;

/** Notes that the goals of the stage were met at two reviews running. */
final class ReviewStageReady implements Rule {

  static final String CODE = "review-stage-ready";
  private static final int RUNNING = 2;

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.INFORMATION)
        .compares(
            "the goals of the stage with its reviews on the last two days, the jaw held back too; of"
                + " the last stage once its planned months are over")
        .limit("all goals met at two reviews running (a count: below 2)")
        .about("/reviews/*/stageId", "Bundle.entry.resource.ofType(Goal)")
        .remedy("Go on to the next stage.")
        .samples(
            Sample.failing(
                "/reviews/3/stageId",
                """
                {"/reviews/2/overjet": 2, "/reviews/2/overjetRetruded": 2,
                 "/reviews/2/molarRelation": {"right": 0, "left": -0.5},
                 "/reviews/3/overjet": 2, "/reviews/3/overjetRetruded": 2,
                 "/reviews/3/molarRelation": {"right": 0, "left": -0.5}}"""),
            Sample.passing(
                """
                {"/reviews/2/overjet": 2, "/reviews/2/overjetRetruded": 2.5,
                 "/reviews/2/molarRelation": {"right": 0, "left": -0.5},
                 "/reviews/3/overjet": 2, "/reviews/3/overjetRetruded": 2,
                 "/reviews/3/molarRelation": {"right": 0, "left": -0.5}}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    ReviewAt last = ReviewAt.last(about).orElse(null);
    Stage stage = last == null ? null : about.stage(last.review().stageId()).orElse(null);
    if (last == null
        || stage == null
        || stage.goals().isEmpty()
        || !about.goesOn()
        || heldOn(about, stage, last.review())) {
      return;
    }
    List<Review> running = running(about, stage);
    if (running.size() == RUNNING && running.stream().allMatch(review -> met(stage, review))) {
      found
          .information(last.at("stageId"), last.id())
          .value("reviewsMet", RUNNING)
          .unit(Unit.COUNT)
          .limit(BigDecimal.valueOf(RUNNING))
          .remedy(isLast(about, stage) ? "End the treatment and score it." : "Go on to the next stage.")
          .says(
              "The goals of the %s stage were met on %s and %s: the next step is due.%s"
                  .formatted(
                      stage.kind().code(),
                      running.get(1).date(),
                      running.get(0).date(),
                      unmeasured(stage, running)));
    }
  }

  /** The last reviews of the stage, the latest first; one a day, the last of the file. */
  private static List<Review> running(Case about, Stage stage) {
    Map<LocalDate, Review> days = new TreeMap<>(Comparator.reverseOrder());
    about.treatment().reviews().stream()
        .filter(review -> review.stageId().equals(stage.id()))
        .forEach(review -> days.put(review.date(), review));
    return days.values().stream().limit(RUNNING).toList();
  }

  /**
   * The last stage holds what was reached for as long as it is planned: that its goals are met says
   * that it works, not that it may end.
   */
  private static boolean heldOn(Case about, Stage stage, Review last) {
    return isLast(about, stage)
        && StageDates.of(about.treatment()).stream()
            .flatMap(reckoned -> reckoned.result().stream())
            .anyMatch(dates -> dates.stage().equals(stage) && last.date().isBefore(dates.end()));
  }

  private static boolean isLast(Case about, Stage stage) {
    List<Stage> stages = about.treatment().stages();
    return stages.get(stages.size() - 1).equals(stage);
  }

  /** A jaw that only comes forward by itself meets the goal too, so what was not measured is said. */
  private static String unmeasured(Stage stage, List<Review> running) {
    boolean asked =
        stage.kind() == StageKind.ACTIVE
            && stage.goals().stream().anyMatch(goal -> goal.measure() == Goal.Measure.OVERJET);
    return asked && running.stream().anyMatch(review -> review.overjetRetruded() == null)
        ? " The overjet with the jaw held back was not measured at both: measure it first."
        : "";
  }

  private static boolean met(Stage stage, Review review) {
    return stage.goals().stream()
        .allMatch(
            goal -> measured(goal, review).map(all -> all.allMatch(goal::isMetBy)).orElse(false));
  }

  /** Everything a goal is measured by at a review; empty where it was not measured. */
  private static Optional<Stream<Length>> measured(Goal goal, Review review) {
    return switch (goal.measure()) {
      case OVERJET -> Optional.of(withRetruded(review));
      case OVERBITE -> Optional.of(Stream.of(review.overbite()));
      case MOLAR_RELATION -> Optional.of(sides(review.molarRelation()));
      case POSTERIOR_OPEN_BITE ->
          Optional.ofNullable(review.posteriorOpenBite()).map(ReviewStageReady::sides);
    };
  }

  private static Stream<Length> withRetruded(Review review) {
    Length retruded = review.overjetRetruded();
    return retruded == null ? Stream.of(review.overjet()) : Stream.of(review.overjet(), retruded);
  }

  private static Stream<Length> sides(BothSides sides) {
    return Stream.of(sides.right(), sides.left());
  }
}
