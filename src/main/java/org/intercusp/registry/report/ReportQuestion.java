package org.intercusp.registry.report;

import java.time.LocalDate;

/**
 * What is asked of the registry.
 *
 * @param cutOff day up to which things have happened
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
  }

  /** Asked of dates that are kept by the month. */
  public ReportQuestion(LocalDate cutOff, int threshold) {
    this(cutOff, threshold, 1);
  }

  /** The same, asked of dates reduced to so many months. */
  ReportQuestion reduced(int months) {
    return new ReportQuestion(cutOff, threshold, months);
  }

  public static ReportQuestion at(LocalDate cutOff) {
    return new ReportQuestion(cutOff, USUAL_THRESHOLD);
  }
}
