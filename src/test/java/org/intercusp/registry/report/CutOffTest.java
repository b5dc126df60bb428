package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What lies after the cut-off is not in the report: neither who was fitted nor what was scored. */
class CutOffTest {

  private static final LocalDate CUT_OFF = LocalDate.of(2021, 6, 30);

  @TempDir static Path cases;
  private static Report report;
  private static double begun;
  private static double scored;
  private static double twice;

  @BeforeAll
  static void make() throws Exception {
    OutcomeRows.write(cases, 3000, 8);
    OutcomeRows.change(
        cases,
        "CASE WHEN start_month IS NOT NULL THEN first_fitted_month END AS start_month,"
            + " CASE WHEN end_month IS NOT NULL THEN strftime(CAST(first_fitted_month || '-01' AS DATE)"
            + " + INTERVAL 20 MONTH, '%Y-%m') END AS end_month");
    report = Reports.over(cases).of(new ReportQuestion(CUT_OFF, 1));
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      // The cases without a cut-off that leaves anything out, and what of them lies before this one.
      new Gathering(rows, new ReportQuestion(LocalDate.of(2030, 12, 31), 1)).gather();
      String fitted = "SELECT count(*) AS n FROM counted WHERE first_fitted_month <= '2021-06'";
      rows.each(fitted, row -> begun = row.whole("n"));
      rows.each(
          fitted
              + " AND end_month <= '2021-06' AND end_overjet + start_overjet IS NOT NULL",
          row -> scored = row.whole("n"));
      rows.each(fitted + " AND second_par_uk_again IS NOT NULL AND start_month IS NOT NULL", row -> twice = row.whole("n"));
    }
  }

  private static double figure(Measure measure, String statistic) {
    return report.of(measure).stream()
        .filter(each -> each.slice().equals(Slice.ALL))
        .filter(each -> each.statistic().code().equals(statistic))
        .map(Figure::value)
        .findFirst()
        .orElseThrow();
  }

  @Test
  void whoWasFittedLaterDoesNotCountYet() {
    assertThat(figure(Measure.STANDING, "cases")).isEqualTo(begun).isBetween(100.0, 2900.0);
    double left = figure(Measure.COUNTING, "rows");
    for (String why :
        List.of("corrected", "second-submitter", "transferred-on", "same-fitting", "not-begun")) {
      left -= figure(Measure.COUNTING, why);
    }
    assertThat(figure(Measure.COUNTING, "not-begun")).isPositive();
    assertThat(figure(Measure.COUNTING, "counted")).isEqualTo(begun).isEqualTo(left);
    assertThat(report.figures())
        .filteredOn(each -> each.slice().dimension() == Dimension.YEAR)
        .allMatch(each -> each.slice().member().compareTo("2021") <= 0);
  }

  @Test
  void whatWasScoredLaterIsNotKnownYet() {
    assertThat(figure(Measure.OVERJET, "cases")).isEqualTo(scored).isBetween(50.0, begun - 50);
    for (Measure measure : List.of(Measure.PAR_US, Measure.ICON, Measure.DHC, Measure.OVERBITE)) {
      assertThat(figure(measure, "cases")).as(measure.code()).isBetween(0.9 * scored, scored);
    }
    Slice end = new Slice(Dimension.FIELD, "end aesthetic");
    List<Double> present = new ArrayList<>();
    report.of(Measure.COMPLETENESS).stream()
        .filter(each -> each.slice().equals(end) && each.statistic().code().equals("present"))
        .forEach(each -> present.add(each.value()));
    assertThat(present).hasSize(1).allMatch(each -> each >= scored && each < begun);
    assertThat(figure(Measure.AGREEMENT, "cases")).isBetween(twice, 1.1 * twice);
  }

  @Test
  void beforeAllDataNothingIsThereAndNothingHidden() throws Exception {
    Report early = Reports.over(cases).of(new ReportQuestion(LocalDate.of(2010, 12, 31), 5));
    assertThat(early.of(Measure.STANDING)).allMatch(each -> Double.valueOf(0).equals(each.value()));
    assertThat(early.figures()).noneMatch(Figure::hidden);
    assertThat(early.of(Measure.FUNNEL_DISCONTINUED))
        .singleElement()
        .extracting(Figure::absent)
        .isEqualTo("there is no case to take a share of");
  }
}
