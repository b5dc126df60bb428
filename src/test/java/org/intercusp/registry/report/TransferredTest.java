package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A case that moved is followed at the other clinic, whichever clinic's record came first. */
class TransferredTest {

  @TempDir Path cases;

  @Test
  void isFollowedWhicheverRecordCameFirst() throws Exception {
    OutcomeRows.write(cases, 12, 12);
    // Pairs of records of one person, each at a clinic of its own, by the order they were accepted.
    OutcomeRows.change(
        cases,
        "'p' || (sequence // 2) AS person, 't' || sequence AS treatment, 'c' || sequence AS clinic,"
            + " CASE WHEN sequence IN (0, 3, 5, 6, 7, 9, 10) THEN 'transferred' ELSE 'completed' END AS status,"
            + " CASE sequence WHEN 4 THEN '2018-01' WHEN 8 THEN NULL WHEN 11 THEN '2018-01' ELSE '2022-03' END AS first_fitted_month");
    Map<Long, String> dropped = new TreeMap<>();
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      new Gathering(rows, new ReportQuestion(LocalDate.of(2026, 6, 30), 1)).gather();
      rows.each(
          "SELECT sequence, why FROM dropped",
          row -> dropped.put(row.whole("sequence"), String.valueOf(row.text("why"))));
    }
    // 4 was completed before 5 began, 11 before 10: those that moved on are followed nowhere. Of two
    // that were transferred the later goes on, and so it does where a fitting is not dated.
    assertThat(dropped)
        .isEqualTo(Map.of(0L, "transferred-on", 3L, "transferred-on", 6L, "transferred-on"));
  }
}
