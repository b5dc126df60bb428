package org.intercusp.registry.report;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * What is asked of the registry. Two reports whose cut-offs lie a day apart would differ by what
 * happened to one patient on that day, so a cut-off is always the last day of a month, quarter or
 * year, as dates are reduced; another day counts as the last such day before it. Rows count
 * whenever they were accepted: what happened up to a day is submitted after it, and a registry that
 * left such rows out would report nothing in its first month. What a few rows accepted between two
 * reports change can be seen by comparing them, so a registry publishes on fixed days.
 *
 * @param cutOff day up to which things have happened, the last of its month, quarter or year
 * @param threshold counts of 1 to one less are hidden; 5 unless told otherwise, 1 hides nothing
 * @param dateMonths months to which the dates of the rows were reduced, which the rows do not tell
 */
public record ReportQuestion(LocalDate cutOff, int threshold, int dateMonths) {

  /** Cells below this are hidden unless told otherwise (common practice, no source). */
  public static final int USUAL_THRESHOLD = 5;

  public ReportQuestion {
    if (threshold < 1 || threshold > 1000) {
      throw new IllegalArgumentException("the threshold of small cells is 1 to 1000");
    }
    if (dateMonths < 1 || dateMonths > 12) {
      throw new IllegalArgumentException("dates are reduced to 1 to 12 months");
    }
    LocalDate next = cutOff.plusDays(1);
    int first = (next.getMonthValue() - 1) / dateMonths * dateMonths + 1;
    cutOff = LocalDate.of(next.getYear(), first, 1).minusDays(1);
  }

  /**
   * What may be asked on a day: nothing that is not over yet, where every day could show more.
   *
   * @param cutOff as somebody asks for it; today if absent
   */
  public static ReportQuestion asked(@Nullable LocalDate cutOff, LocalDate today, int threshold) {
    LocalDate over = today.minusDays(1);
    return new ReportQuestion(cutOff == null || cutOff.isAfter(over) ? over : cutOff, threshold);
  }

  /** Asked of dates that are kept by the month. */
  public ReportQuestion(LocalDate cutOff, int threshold) {
    this(cutOff, threshold, 1);
  }

  /** What is hidden, for people. */
  public String hiding() {
    return switch (threshold) {
      case 1 -> "No count is hidden";
      case 2 -> "Counts of 1 are hidden";
      default -> "Counts from 1 to " + (threshold - 1) + " are hidden";
    };
  }

  /** The same, asked of dates reduced to so many months. */
  public ReportQuestion reduced(int months) {
    return new ReportQuestion(cutOff, threshold, months);
  }

  public static ReportQuestion at(LocalDate cutOff) {
    return new ReportQuestion(cutOff, USUAL_THRESHOLD);
  }
}
