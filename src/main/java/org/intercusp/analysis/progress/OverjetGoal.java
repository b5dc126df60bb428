package org.intercusp.analysis.progress;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.stage.ActivePhase;
import org.intercusp.analysis.stage.CurrentStage;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Stage.Goal;
import org.intercusp.treatment.Treatment;

/**
 * The overjet an active stage is to come down to: the smallest of its upper bounds. A lower bound
 * is no goal of an overjet that shrinks; it keeps it from shrinking too far.
 *
 * @param target the overjet at which, and below, the goal is reached
 */
public record OverjetGoal(Length target) {

  /** The goal of a stage; empty where it states none. */
  public static Optional<OverjetGoal> of(Stage stage) {
    return among(stage.goals());
  }

  /** The goal among those of a stage; empty where none is an upper bound of the overjet. */
  public static Optional<OverjetGoal> among(List<Goal> goals) {
    return goals.stream()
        .filter(goal -> goal.measure() == Goal.Measure.OVERJET)
        .filter(goal -> goal.comparator() == Goal.Comparator.AT_MOST)
        .map(Goal::target)
        .min(Comparator.naturalOrder())
        .map(OverjetGoal::new);
  }

  /**
   * The goal of the active stage under way on a day; of the one that was, once it is over; of the
   * first of the plan before it begins.
   */
  public static Optional<OverjetGoal> of(Treatment treatment, LocalDate on) {
    return CurrentStage.on(treatment, on)
        .filter(ActivePhase::is)
        .or(() -> lastReviewed(treatment, on))
        .or(() -> active(treatment).findFirst())
        .flatMap(OverjetGoal::of);
  }

  private static Optional<Stage> lastReviewed(Treatment treatment, LocalDate on) {
    Optional<Review> last = OverjetCourse.of(treatment, on).result().flatMap(OverjetCourse::last);
    return last.flatMap(
        review ->
            active(treatment).filter(stage -> stage.id().equals(review.stageId())).findFirst());
  }

  private static Stream<Stage> active(Treatment treatment) {
    return treatment.stages().stream().filter(ActivePhase::is);
  }

  public boolean isMetBy(Length overjet) {
    return !overjet.isAbove(target);
  }

  /** Whether the last overjet of the course meets it. */
  public boolean isMetBy(Progress progress) {
    return isMetBy(progress.points().get(progress.points().size() - 1).overjet());
  }

  /**
   * The day to come on which the line reaches the goal. Lacking where the goal is reached, the
   * active stage over or the rate uncertain, and where the line was there and the overjet was not.
   */
  public Reckoned<LocalDate> projected(Treatment treatment, Progress progress, LocalDate on) {
    if (isMetBy(progress)) {
      return Reckoned.lacking(
          "the goal of " + target.value().stripTrailingZeros().toPlainString() + " mm is reached");
    }
    return ActivePhase.on(treatment, on)
        .flatMap(stage -> progress.projected(target))
        .flatMap(
            day ->
                day.isAfter(on)
                    ? Reckoned.known(day)
                    : Reckoned.lacking("the course has left its line, there on " + day));
  }
}
