package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.intercusp.analysis.cohort.Reduction;
import org.intercusp.analysis.index.ParChange;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Figures against a second way to the same number: DuckDB's own {@code avg}, {@code stddev_samp},
 * {@code regr_count} and {@code quantile_disc} case by case, and Hipparchus' binomial distribution.
 */
class EngineAgreesTest {

  private static final String UK =
      "start_par_ua + start_par_la + start_par_br + start_par_bl + 6 * start_par_oj + 2 * start_par_ob + 4 * start_par_cl AS b,"
          + " end_par_ua + end_par_la + end_par_br + end_par_bl + 6 * end_par_oj + 2 * end_par_ob + 4 * end_par_cl AS a";

  @TempDir static Path cases;
  private static DuckRows rows;
  private static Report report;

  @BeforeAll
  static void open() throws Exception {
    OutcomeRows.write(cases, 5000, 12);
    rows = DuckRows.over(cases, 256);
    report = Report.of(rows, new ReportQuestion(LocalDate.of(2026, 6, 30), 1));
  }

  @AfterAll
  static void close() {
    rows.close();
  }

  private static double figure(Measure measure, Slice slice, String statistic) {
    return report.of(measure).stream()
        .filter(each -> each.slice().equals(slice) && each.statistic().code().equals(statistic))
        .map(Figure::value)
        .findFirst()
        .orElseThrow();
  }

  private static double asked(String sql) {
    List<Double> found = new ArrayList<>();
    rows.each(sql, row -> found.add(row.number("x")));
    return found.get(0);
  }

  @Test
  void meansAndDeviationsOfMeasurements() {
    for (Map.Entry<Measure, String> each :
        Map.of(Measure.OVERJET, "overjet", Measure.OVERBITE, "overbite").entrySet()) {
      String both =
          " FROM counted WHERE start_"
              + each.getValue()
              + " IS NOT NULL AND end_"
              + each.getValue()
              + " IS NOT NULL";
      String change = "start_" + each.getValue() + " - end_" + each.getValue();
      assertThat(figure(each.getKey(), Slice.ALL, "change"))
          .isCloseTo(asked("SELECT avg(" + change + ") AS x" + both), within(1e-9));
      assertThat(figure(each.getKey(), Slice.ALL, "change-sd"))
          .isCloseTo(asked("SELECT stddev_samp(" + change + ") AS x" + both), within(1e-9));
      assertThat(figure(each.getKey(), Slice.ALL, "cases"))
          .isEqualTo(
              asked(
                  "SELECT regr_count(end_"
                      + each.getValue()
                      + ", start_"
                      + each.getValue()
                      + ") AS x FROM counted"));
      assertThat(figure(each.getKey(), new Slice(Dimension.APPLIANCE, "twin-block"), "change"))
          .isCloseTo(
              asked("SELECT avg(" + change + ") AS x" + both + " AND appliance = 'twin-block'"),
              within(1e-9));
    }
  }

  @Test
  void reductionCaseByCase() {
    List<ParChange> changes = new ArrayList<>();
    rows.each(
        "SELECT * FROM (SELECT " + UK + " FROM counted) AS t WHERE a IS NOT NULL AND b IS NOT NULL",
        row -> changes.add(new ParChange((int) row.whole("b"), (int) row.whole("a"))));
    Reduction reduction = Reduction.of(changes, 0.95).result().orElseThrow();
    assertThat(figure(Measure.PAR_UK, Slice.ALL, "cases")).isEqualTo(reduction.cases());
    assertThat(figure(Measure.PAR_UK, Slice.ALL, "percent"))
        .isCloseTo(reduction.ofPercentages().percent(), within(1e-9));
    assertThat(figure(Measure.PAR_UK, Slice.ALL, "percent-low"))
        .isCloseTo(reduction.ofPercentages().interval().result().orElseThrow().low(), within(1e-9));
    assertThat(figure(Measure.PAR_UK, Slice.ALL, "percent-of-sums"))
        .isCloseTo(reduction.ofSums().percent(), within(1e-9));
    assertThat(figure(Measure.PAR_UK, Slice.ALL, "percent-of-sums-high"))
        .isCloseTo(reduction.ofSums().interval().result().orElseThrow().high(), within(1e-9));
    assertThat(figure(Measure.PAR_UK, Slice.ALL, "change-sd"))
        .isCloseTo(
            asked(
                "SELECT stddev_samp(b - a) AS x FROM (SELECT "
                    + UK
                    + " FROM counted) AS t WHERE b > 0"),
            within(1e-9));
    for (ParChange.Improvement improvement : ParChange.Improvement.values()) {
      String code = improvement.shown().replace(' ', '-');
      long count =
          changes.stream()
              .filter(each -> each.improvement().result().filter(improvement::equals).isPresent())
              .count();
      assertThat(figure(Measure.PAR_UK, Slice.ALL, code)).as(code).isEqualTo(count);
    }
  }

  @Test
  void groupsAddUpToAll() {
    for (Dimension dimension : Dimension.SPLITS) {
      double sum =
          report.of(Measure.STANDING).stream()
              .filter(
                  each ->
                      each.slice().dimension() == dimension
                          && each.statistic().code().equals("cases"))
              .mapToDouble(Figure::value)
              .sum();
      assertThat(sum)
          .as(dimension.code())
          .isEqualTo(figure(Measure.STANDING, Slice.ALL, "cases"))
          .isEqualTo(figure(Measure.COUNTING, Slice.ALL, "counted"));
    }
  }

  @Test
  void medianWithoutCensoringIsTheEnginesQuantile() {
    double never = asked("SELECT count(*) AS x FROM courses WHERE standing IN (0, 3)");
    assertThat(never).isPositive();
    double low = asked("SELECT quantile_disc(day, 0.5) AS x FROM courses WHERE standing IN (1, 2)");
    // Censoring only lengthens it.
    assertThat(figure(Measure.LENGTH, Slice.ALL, "median-a"))
        .isGreaterThanOrEqualTo(low)
        .isLessThan(low + 120);
  }

  @Test
  void exactFunnelLimitsHoldTheirProbability() {
    double centre = figure(Measure.FUNNEL_DISCONTINUED, Slice.ALL, "centre") / 100;
    double factor = figure(Measure.FUNNEL_DISCONTINUED, Slice.ALL, "factor");
    Figure clinic =
        report.of(Measure.FUNNEL_DISCONTINUED).stream()
            .filter(each -> each.statistic().code().equals("exact-95-low"))
            .findFirst()
            .orElseThrow();
    int n = (int) figure(Measure.FUNNEL_DISCONTINUED, clinic.slice(), "cases");
    double low = centre + (clinic.value() / 100 - centre) / factor;
    BinomialDistribution binomial = new BinomialDistribution(n, centre);
    int below = (int) Math.floor(low * n);
    assertThat(binomial.cumulativeProbability(below - 1)).isLessThanOrEqualTo(0.025);
    assertThat(binomial.cumulativeProbability(below + 1)).isGreaterThanOrEqualTo(0.025);
  }

  @Test
  void countedOnce() {
    double kept =
        asked("SELECT count(*) AS x FROM (SELECT DISTINCT person, treatment FROM cases) AS t");
    double rowsRead = figure(Measure.COUNTING, Slice.ALL, "rows");
    assertThat(
            figure(Measure.COUNTING, Slice.ALL, "corrected")
                + figure(Measure.COUNTING, Slice.ALL, "second-submitter"))
        .isEqualTo(rowsRead - kept)
        .isPositive();
    assertThat(figure(Measure.COUNTING, Slice.ALL, "transferred-on")).isPositive();
    assertThat(
            asked(
                "SELECT count(*) AS x FROM (SELECT person, treatment FROM counted GROUP BY person, treatment HAVING count(*) > 1) AS t"))
        .isZero();
  }

  @Test
  void completedAreKnownOfTheCompleted() {
    double completed = figure(Measure.STANDING, Slice.ALL, "completed");
    for (Measure measure : List.of(Measure.PAR_UK_COMPLETED, Measure.PAR_US_COMPLETED)) {
      assertThat(figure(measure, Slice.ALL, "known"))
          .isCloseTo(100 * figure(measure, Slice.ALL, "cases") / completed, within(1e-9));
    }
  }
}
