package org.intercusp.summary.drawing;

import static org.intercusp.summary.drawing.BiteDrawing.mm;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.progress.OverjetGoal;
import org.intercusp.analysis.progress.Progress;

/** The rate of a treatment and what it promises, in words: mm a month, 95 % interval. */
final class ProgressWords {

  private ProgressWords() {}

  /**
   * The rate.
   *
   * @param over whether the active stage, which it is of, is over
   */
  public static String rate(Progress progress, boolean over) {
    boolean grows = progress.rate().signum() < 0;
    String verb = grows ? over ? "grew" : "grows" : over ? "shrank" : "shrinks";
    return (over ? "In the active stage the overjet " : "Overjet ")
        + verb
        + " by "
        + places(progress.rate().abs())
        + " mm a month"
        + progress
            .interval()
            .result()
            .map(each -> " (95 % " + places(each.low()) + " to " + places(each.high()) + ")")
            .orElse(" (no interval below three points)");
  }

  /** When the line reaches the target, or why no day is given. */
  public static String projection(Progress progress, OverjetGoal goal, Reckoned<LocalDate> day) {
    String target = mm(goal.target().value());
    if (goal.isMetBy(progress)) {
      return "Goal of " + target + " reached";
    }
    return day.result()
        .map(known -> "At this rate the goal of " + target + " is reached " + known)
        .orElse("No day projected for the goal of " + target + ": " + day.reason());
  }

  /** That the goal was reached and is not kept, by the last overjet since; else empty. */
  static Optional<String> lost(OverjetGoal goal, Progress progress, List<Progress.Point> later) {
    if (later.isEmpty() || !goal.isMetBy(progress)) {
      return Optional.empty();
    }
    Progress.Point last = later.get(later.size() - 1);
    return goal.isMetBy(last.overjet())
        ? Optional.empty()
        : Optional.of(
            "Goal of "
                + mm(goal.target().value())
                + " was reached in the active stage; "
                + on(last));
  }

  /** An overjet and its day. */
  static String on(Progress.Point point) {
    return mm(point.overjet().value()) + " on " + point.day();
  }

  private static String places(BigDecimal rate) {
    return rate.setScale(2, RoundingMode.HALF_UP).toPlainString();
  }
}
