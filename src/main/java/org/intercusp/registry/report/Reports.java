package org.intercusp.registry.report;

import java.nio.file.Path;

/**
 * Makes reports of the outcomes that a registry keeps.
 *
 * @param cases directory of the Parquet files
 * @param memoryMegabytes most that the engine may hold
 */
public record Reports(Path cases, int memoryMegabytes) {

  /** Enough for a million cases (common practice, no source). */
  public static final int USUAL_MEGABYTES = 512;

  public static Reports over(Path cases) {
    return new Reports(cases, USUAL_MEGABYTES);
  }

  /**
   * Asks the registry as it is now.
   *
   * @throws DuckRows.NoSuchRows when it holds no outcomes
   */
  public Report of(ReportQuestion question) throws DuckRows.NoSuchRows {
    try (DuckRows rows = DuckRows.over(cases, memoryMegabytes)) {
      return Report.of(rows, question);
    }
  }
}
