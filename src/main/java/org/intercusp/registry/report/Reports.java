package org.intercusp.registry.report;

import java.nio.file.Path;

/**
 * Makes reports of the outcomes that a registry keeps.
 *
 * @param cases directory of the Parquet files
 * @param memoryMegabytes most that the engine may hold
 * @param dateMonths months to which the dates in them were reduced
 */
public record Reports(Path cases, int memoryMegabytes, int dateMonths) {

  /** Enough for a million cases (common practice, no source). */
  public static final int USUAL_MEGABYTES = 512;

  /** Over dates that are kept by the month. */
  public static Reports over(Path cases) {
    return over(cases, 1);
  }

  public static Reports over(Path cases, int dateMonths) {
    return new Reports(cases, USUAL_MEGABYTES, dateMonths);
  }

  /** Over rows elsewhere whose dates were reduced as here. */
  public Reports at(Path elsewhere) {
    return new Reports(elsewhere, memoryMegabytes, dateMonths);
  }

  /**
   * Asks the registry as it is now.
   *
   * @throws DuckRows.NoSuchRows when it holds no outcomes
   */
  public Report of(ReportQuestion question) throws DuckRows.NoSuchRows {
    try (DuckRows rows = DuckRows.over(cases, memoryMegabytes)) {
      return Report.of(rows, question.reduced(dateMonths));
    }
  }
}
