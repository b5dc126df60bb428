package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A date reduced to the quarter or year may mean its last month too. */
class ReducedDatesTest {

  private static final LocalDate CUT_OFF = LocalDate.of(2026, 6, 30);

  @TempDir Path cases;

  @ParameterizedTest
  @CsvSource({
    "1, 2024-06, 2026-06-30, true",
    "1, 2024-06, 2026-06-29, false",
    "1, 2024-02, 2026-02-28, true",
    "3, 2024-04, 2026-06-30, true",
    "3, 2024-04, 2026-06-29, false",
    "12, 2024-01, 2026-12-30, false",
    "12, 2024-01, 2026-12-31, true",
  })
  void takenOnceTheLastDayItMayMeanIsLongEnoughAgo(
      int months, YearMonth month, LocalDate cutOff, boolean taken) {
    assertThat(new FittingCalendar(new ReportQuestion(cutOff, 5, months)).longEnough(month))
        .isEqualTo(taken);
  }

  @ParameterizedTest
  @CsvSource({
    "1, 2026-06-30, 2026-06-30",
    "1, 2026-07-01, 2026-06-30",
    "1, 2026-07-30, 2026-06-30",
    "3, 2026-06-30, 2026-06-30",
    "3, 2026-06-29, 2026-03-31",
    "12, 2026-12-30, 2025-12-31",
  })
  void aReportGoesUpToTheEndOfWhatWasOver(int months, LocalDate asked, LocalDate until) {
    assertThat(new ReportQuestion(asked, 5, months).cutOff()).isEqualTo(until);
  }

  @ParameterizedTest
  @CsvSource({
    // The last day of the month goes on until midnight.
    "2026-11-30, , 2026-10-31",
    "2026-11-30, 2030-01-01, 2026-10-31",
    "2026-12-01, , 2026-11-30",
    "2026-12-01, 2026-06-14, 2026-05-31",
  })
  void nobodyAsksForWhatIsNotOver(LocalDate today, LocalDate asked, LocalDate until) {
    assertThat(ReportQuestion.asked(asked, today, 5).cutOff()).isEqualTo(until);
  }

  @ParameterizedTest
  @CsvSource({
    "1, 2025-03, 2025-03-15",
    "3, 2025-04, 2025-05-15",
    "12, 2025-01, 2025-07-01",
  })
  void followedFromTheMiddle(int months, YearMonth month, LocalDate middle) {
    assertThat(new FittingCalendar(new ReportQuestion(CUT_OFF, 5, months)).middle(month))
        .isEqualTo(middle);
  }

  @Test
  void noCaseIsTakenTooEarly() throws Exception {
    OutcomeRows.write(cases, 3000, 12);
    OutcomeRows.change(cases, "start_year || '-01' AS first_fitted_month");
    Map<Integer, Long> ended = new TreeMap<>();
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      new Gathering(rows, new ReportQuestion(CUT_OFF, 1, 12)).gather();
      for (int year = 2023; year <= 2024; year++) {
        int last = year;
        rows.each(
            "SELECT count(*) AS n FROM counted WHERE start_year <= "
                + year
                + " AND status NOT IN ('in-treatment', 'transferred')",
            row -> ended.put(last, row.whole("n")));
      }
    }
    // December 2024 is kept as January 2024: of that year none, of 2023 all are 24 months old.
    assertThat(taken(12)).isEqualTo((double) ended.get(2023)).isLessThan(taken(1));
    assertThat(taken(1)).isEqualTo((double) ended.get(2024));
  }

  private double taken(int dateMonths) throws Exception {
    return Reports.over(cases, dateMonths)
        .of(new ReportQuestion(CUT_OFF, 1))
        .of(Measure.DISCONTINUATION)
        .stream()
        .filter(each -> each.slice().equals(Slice.ALL) && each.statistic().code().equals("cases"))
        .map(Figure::value)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void whoGoesOnIsFollowedFromTheMiddle() throws Exception {
    OutcomeRows.write(cases, 3000, 12);
    OutcomeRows.change(cases, "start_year || '-01' AS first_fitted_month");
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      new Gathering(rows, new ReportQuestion(CUT_OFF, 1, 12)).gather();
      rows.each(
          "SELECT min(day) AS shortest, max(day) AS longest FROM courses WHERE standing = 0 AND year_started = 2024",
          // 1 July 2024 to 31 December 2025, the last year that was over.
          row -> assertThat(row.whole("shortest")).isEqualTo(548).isEqualTo(row.whole("longest")));
    }
  }
}
