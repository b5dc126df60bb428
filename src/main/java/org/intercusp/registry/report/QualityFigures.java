package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.agreement.Pairs;
import org.intercusp.analysis.agreement.Proportion;
import org.intercusp.analysis.agreement.Reliability;

/** What the figures rest on: rows counted once, fields present, examiners who agree. */
final class QualityFigures {

  private static final List<Map.Entry<String, String>> WHYS =
      List.of(
          Map.entry("corrected", "Corrected by the same submitter"),
          Map.entry("second-submitter", "Submitted by another too"),
          Map.entry("transferred-on", "Transferred and followed"),
          Map.entry("same-fitting", "Second treatment fitted in the same month"),
          Map.entry("not-begun", "First fitted after the cut-off"));

  private final SmallCells cells;
  private final Sheet sheet;

  QualityFigures(SmallCells cells, Sheet sheet) {
    this.cells = cells;
    this.sheet = sheet;
  }

  void counting(Map<String, Long> counting) {
    long rows = counting.getOrDefault("rows", 0L);
    records(Statistic.count("rows", "Rows read"), rows);
    long left = rows;
    for (var why : WHYS) {
      long count = counting.getOrDefault(why.getKey(), 0L);
      left -= count;
      sheet.value(
          Measure.COUNTING,
          Slice.ALL,
          Statistic.count(why.getKey(), why.getValue()),
          (double) count);
    }
    records(Statistic.count("counted", "Counted"), left);
  }

  /** Rows less those that do not count are the cases: hidden where these are. */
  private void records(Statistic statistic, long count) {
    if (cells.hidden(Slice.ALL, "cases")) {
      sheet.hide(Measure.COUNTING, Slice.ALL, statistic);
    } else {
      sheet.value(Measure.COUNTING, Slice.ALL, statistic, (double) count);
    }
  }

  void completeness(Map<String, Integer> known) {
    int cases = known.getOrDefault("cases", 0);
    known.forEach(
        (column, count) -> {
          if (column.startsWith(CellPlan.FIELD)) {
            present(column, new Proportion(count, cases));
          }
        });
  }

  private void present(String column, Proportion of) {
    Measure measure = Measure.COMPLETENESS;
    String name = column.substring(CellPlan.FIELD.length()).replace('_', ' ');
    Slice field = new Slice(Dimension.FIELD, name);
    Statistic present = Statistic.count("present", "Present");
    Statistic share = Statistic.share("share", "Share");
    if (cells.hidden(Slice.ALL, column)) {
      sheet.hide(measure, field, present);
      sheet.hide(measure, field, share);
    } else {
      sheet.value(measure, field, present, of.events());
      sheet.value(measure, field, share, of.share().map(each -> 100 * each));
    }
  }

  void agreement(List<Gathered.Twice> twice, int threshold) {
    List<Gathered.Twice> sorted =
        twice.stream()
            .sorted(
                Comparator.comparingInt(Gathered.Twice::first)
                    .thenComparingInt(Gathered.Twice::again))
            .toList();
    List<double[]> rows = new ArrayList<>();
    for (Gathered.Twice each : sorted) {
      for (int i = 0; i < each.cases(); i++) {
        rows.add(new double[] {each.first(), each.again()});
      }
    }
    Measure measure = Measure.AGREEMENT;
    Statistic cases = Statistic.count("cases", "Cases scored twice");
    if (!rows.isEmpty() && rows.size() < threshold) {
      sheet.hide(measure, Slice.ALL, cases);
      return;
    }
    sheet.value(measure, Slice.ALL, cases, rows.size());
    Pairs pairs = new Pairs(rows.stream().map(row -> row[0] - row[1]).toList());
    Reckoned<Pairs.LimitsOfAgreement> limits = pairs.limitsOfAgreement();
    points("bias", "Bias", limits.map(Pairs.LimitsOfAgreement::bias));
    points(
        "limit-low",
        "Lower limit of agreement",
        limits.map(each -> each.lower(Pairs.LimitsOfAgreement.USUAL)));
    points(
        "limit-high",
        "Upper limit of agreement",
        limits.map(each -> each.upper(Pairs.LimitsOfAgreement.USUAL)));
    points("method-error", "Method error", pairs.methodError());
    Reckoned<Reliability> reliability =
        rows.size() < 2
            ? Reckoned.lacking("two subjects and two judges are needed")
            : Reliability.of(rows.toArray(double[][]::new));
    sheet.value(
        measure,
        Slice.ALL,
        Statistic.plain("icc", "ICC(2,1)"),
        reliability.flatMap(Reliability::single));
    Reckoned<Interval> interval = reliability.flatMap(each -> each.interval(Sheet.LEVEL));
    sheet.interval(measure, Slice.ALL, "icc", "ICC(2,1)", "1", interval);
  }

  private void points(String code, String title, Reckoned<Double> value) {
    sheet.value(Measure.AGREEMENT, Slice.ALL, new Statistic(code, title, "{score}"), value);
  }
}
