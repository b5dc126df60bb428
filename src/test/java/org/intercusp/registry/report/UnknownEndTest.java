package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Of whom nobody knows whether they ended: in one denominator, missing, and followed until seen.
 */
class UnknownEndTest {

  private static final String UNKNOWN = "FROM counted WHERE status = 'unknown'";

  @TempDir static Path cases;
  private static Report report;
  private static Gathered gathered;
  private static double unknown;
  private static double old;
  private static double seenLater;

  @BeforeAll
  static void make() throws Exception {
    OutcomeRows.write(cases, 3000, 8);
    ReportQuestion question = new ReportQuestion(LocalDate.of(2025, 12, 31), 1);
    report = Reports.over(cases).of(question);
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      gathered = new Gathering(rows, question).gather();
      // Counted anew from the rows, by the days of a calendar and not by the report's.
      String fitted = "CAST(first_fitted_month || '-15' AS DATE)";
      String later = " AND " + fitted + " + last_attended_days > DATE '2025-12-31'";
      seenLater = asked(rows, "SELECT count(*) AS x " + UNKNOWN + later);
      unknown = asked(rows, "SELECT count(*) AS x " + UNKNOWN) - seenLater;
      old =
          asked(
              rows,
              "SELECT count(*) AS x "
                  + UNKNOWN
                  + " AND first_fitted_month <= '2023-12'"
                  + " AND NOT (TRUE"
                  + later
                  + ")");
    }
  }

  private static double asked(DuckRows rows, String sql) {
    List<Double> found = new ArrayList<>();
    rows.each(sql, row -> found.add(row.number("x")));
    return found.get(0);
  }

  private static double figure(Measure measure, Slice slice, String statistic) {
    return report.of(measure).stream()
        .filter(each -> each.slice().equals(slice) && each.statistic().code().equals(statistic))
        .map(Figure::value)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void standApart() {
    assertThat(figure(Measure.STANDING, Slice.ALL, "unknown")).isEqualTo(unknown).isPositive();
    // Whoever was seen after the cut-off was in treatment at it.
    assertThat(seenLater).isPositive();
  }

  @Test
  void countInOneDenominator() {
    Measure measure = Measure.DISCONTINUATION;
    double all = figure(measure, Slice.ALL, "cases");
    double known = figure(measure, Slice.ALL, "known");
    assertThat(figure(measure, Slice.ALL, "unknown")).isEqualTo(old).isPositive();
    assertThat(all).isEqualTo(known + old);
    double discontinued = figure(measure, Slice.ALL, "discontinued");
    assertThat(figure(measure, Slice.ALL, "discontinued-share"))
        .isCloseTo(100 * discontinued / all, within(1e-9));
    assertThat(figure(measure, Slice.ALL, "of-known"))
        .isCloseTo(100 * discontinued / known, within(1e-9));
  }

  @Test
  void areMissing() {
    assertThat(figure(Measure.COMPLETENESS, new Slice(Dimension.FIELD, "status"), "present"))
        .isEqualTo(figure(Measure.STANDING, Slice.ALL, "cases") - unknown);
  }

  @Test
  void areFollowedUntilLastSeen() {
    int followed =
        gathered.ends().stream()
            .filter(each -> each.slice().equals(Slice.ALL) && each.standing() == Standing.UNKNOWN)
            .filter(each -> each.day() >= 100)
            .mapToInt(Gathered.Ends::cases)
            .sum();
    assertThat(followed).isEqualTo((int) unknown);
    assertThat(figure(Measure.LENGTH, Slice.ALL, "followed"))
        .isEqualTo(
            gathered.ends().stream()
                .filter(each -> each.slice().equals(Slice.ALL) && each.day() >= 0)
                .mapToInt(Gathered.Ends::cases)
                .sum());
  }
}
