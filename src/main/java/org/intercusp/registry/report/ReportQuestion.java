package org.intercusp.registry.report;

import java.time.LocalDate;

/**
 * What is asked of the registry.
 *
 * @param cutOff day up to which things have happened
 * @param threshold counts of 1 to one less are hidden; 5 unless told otherwise, 1 hides nothing
 */
public record ReportQuestion(LocalDate cutOff, int threshold) {

  /** Cells below this are hidden unless told otherwise (common practice, no source). */
  public static final int USUAL_THRESHOLD = 5;

  public ReportQuestion {
    if (threshold < 1 || threshold > 1000) {
      throw new IllegalArgumentException("the threshold of small cells is 1 to 1000");
    }
  }

  public static ReportQuestion at(LocalDate cutOff) {
    return new ReportQuestion(cutOff, USUAL_THRESHOLD);
  }
}
