package org.intercusp.summary.drawing;

import static org.intercusp.summary.drawing.BiteDrawing.mm;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.progress.OverjetGoal;
import org.intercusp.analysis.progress.Progress;

/** The rate of a treatment and what it promises, in words: mm a month, 95 % interval. */
final class ProgressWords {

  private ProgressWords() {}

  public static String rate(Progress progress) {
    String said = "Overjet shrinks by " + places(progress.rate()) + " mm a month";
    if (progress.rate().signum() < 0) {
      said = "Overjet grows by " + places(progress.rate().negate()) + " mm a month";
    }
    return said
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

  private static String places(BigDecimal rate) {
    return rate.setScale(2, RoundingMode.HALF_UP).toPlainString();
  }
}
