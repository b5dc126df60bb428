package org.intercusp.registry.report;

import java.util.List;
import java.util.Map;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.agreement.CumulativeIncidence;
import org.intercusp.analysis.agreement.EndCounts;
import org.intercusp.analysis.agreement.Followed.Ending;
import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.agreement.Proportion;
import org.intercusp.analysis.agreement.SurvivalCurve;

/** Where cases stand, how long treatment takes, and what happened on the way, by group. */
final class CourseFigures {

  private static final int STEP_DAYS = 30;
  private static final int LAST_DAY = 1800;
  private static final double LAST = Double.MAX_VALUE / 2;
  private static final List<Map.Entry<String, String>> STANDINGS =
      List.of(
          Map.entry("going_on", "In treatment"),
          Map.entry("completed", "Completed"),
          Map.entry("discontinued", "Discontinued"),
          Map.entry("transferred", "Transferred, not followed"),
          Map.entry("unknown", "Not known"));

  private final Cube cube;
  private final Counts counts;
  private final SmallCells cells;
  private final OutcomeFigures outcomes;
  private final Sheet sheet;
  private final int threshold;

  CourseFigures(Counts counts, Cube cube, SmallCells cells, Sheet sheet, int threshold) {
    this.counts = counts;
    this.cube = cube;
    this.cells = cells;
    this.sheet = sheet;
    this.threshold = threshold;
    this.outcomes = new OutcomeFigures(cube, cells, sheet);
  }

  void standing(Slice slice) {
    count(Measure.STANDING, slice, "cases", "cases", "Cases");
    for (var standing : STANDINGS) {
      count(
          Measure.STANDING,
          slice,
          "now_" + standing.getKey(),
          standing.getKey().replace('_', '-'),
          standing.getValue());
    }
  }

  void discontinuation(Slice slice) {
    Measure measure = Measure.DISCONTINUATION;
    count(measure, slice, "end_all", "cases", "Cases, all");
    count(measure, slice, "end_known", "known", "Cases, end known");
    count(measure, slice, "end_completed", "completed", "Completed");
    count(measure, slice, "end_unknown", "unknown", "End not known");
    outcomes.proportion(
        measure, slice, "end_discontinued", "end_all", "discontinued", "Discontinued");
    String title = "Discontinued, share of known ends";
    if (cells.hidden(slice, "end_discontinued") || cells.hidden(slice, "end_known")) {
      sheet.hideShare(measure, slice, "of-known", title);
    } else {
      sheet.share(
          measure,
          slice,
          "of-known",
          title,
          new Proportion(cube.count(slice, "end_discontinued"), cube.count(slice, "end_known")));
    }
  }

  void breakages(Slice slice) {
    outcomes.proportion(
        Measure.BREAKAGES, slice, "broke", "cases", "with-breakage", "Cases with a breakage");
    Statistic mean = Statistic.plain("a-case", "Breakages a case");
    if (cells.hidden(slice, "broke") || cells.hidden(slice, "cases")) {
      sheet.hide(Measure.BREAKAGES, slice, mean);
    } else {
      int cases = cube.count(slice, "cases");
      Reckoned<Double> each =
          cases == 0
              ? Reckoned.lacking("there is no case")
              : Reckoned.known(cube.sum(slice, "breakages") / cases);
      sheet.value(Measure.BREAKAGES, slice, mean, each);
    }
  }

  void harms(Slice slice) {
    for (String column : Harms.columns()) {
      String code = column.substring("harm_".length()).replace('_', '-');
      String title =
          switch (code) {
            case "any" -> "Any event";
            case "serious" -> "Serious event";
            default -> code.replace('-', ' ');
          };
      outcomes.proportion(Measure.HARMS, slice, column, "cases", code, title);
    }
  }

  private void count(Measure measure, Slice slice, String column, String code, String title) {
    Statistic statistic = Statistic.count(code, title);
    if (cells.hidden(slice, column)) {
      sheet.hide(measure, slice, statistic);
    } else {
      sheet.value(measure, slice, statistic, cube.count(slice, column));
    }
  }

  void length(Slice slice) {
    count(Measure.LENGTH, slice, "length_n", "followed", "Cases followed");
    count(Measure.LENGTH, slice, "length_any", "ended", "Completed or discontinued");
    count(Measure.LENGTH, slice, "length_completed", "completed", "Completed");
    median(
        slice,
        "median-a",
        "Median to any end, curve A",
        "length_any",
        SurvivalCurve.of(counts.anyEnd(slice)));
    median(
        slice,
        "median-b",
        "Median to completion, curve B",
        "length_completed",
        SurvivalCurve.of(counts.completion(slice)));
  }

  private void median(Slice slice, String code, String title, String events, SurvivalCurve curve) {
    Statistic statistic = new Statistic(code, title, "d");
    if (cells.hidden(slice, events) || cells.hidden(slice, "length_n")) {
      sheet.hide(Measure.LENGTH, slice, statistic);
    } else {
      Reckoned<Double> median =
          curve
              .median()
              .map(Reckoned::known)
              .orElse(Reckoned.lacking("more than half have not ended yet"));
      sheet.value(Measure.LENGTH, slice, statistic, median);
    }
  }

  /** The curves of all cases, at days that give no small count away. */
  void curves() {
    EndCounts any = counts.anyEnd(Slice.ALL);
    EndCounts completion = counts.completion(Slice.ALL);
    if (cells.hidden(Slice.ALL, "length_n")) {
      return;
    }
    SurvivalCurve a = SurvivalCurve.of(any);
    SurvivalCurve b = SurvivalCurve.of(completion);
    CumulativeIncidence done = CumulativeIncidence.of(completion);
    double shown = -1;
    for (int day = 0; day <= LAST_DAY; day += STEP_DAYS) {
      if (ample(any, shown, day) && ample(completion, shown, day)) {
        point(new Slice(Dimension.DAY, Integer.toString(day)), day, a, b, done);
        shown = day;
      }
    }
  }

  private boolean ample(EndCounts ends, double after, int day) {
    int left = 0;
    for (Ending ending : Ending.values()) {
      int between = ends.between(after, day, ending);
      int later = ends.between(day, LAST, ending);
      // The few that are left follow from how many there are, where that is no secret.
      boolean few = small(later) && !small(ends.between(-1, LAST, ending));
      if (small(between) || few) {
        return false;
      }
      left += later;
    }
    return left >= threshold;
  }

  private boolean small(int count) {
    return count > 0 && count < threshold;
  }

  private void point(
      Slice slice, int day, SurvivalCurve a, SurvivalCurve b, CumulativeIncidence done) {
    survival(slice, "a", "Still treated, curve A", a, day);
    survival(slice, "b", "Not completed, curve B", b, day);
    double share = done.at(day);
    double error = 0;
    for (CumulativeIncidence.Step step : done.steps()) {
      if (step.time() <= day) {
        error = step.standardError();
      }
    }
    Interval interval = Interval.normal(share, error, Sheet.LEVEL);
    String title = "Completed, discontinuation competing";
    sheet.value(Measure.LENGTH_CURVE, slice, Statistic.share("completed", title), 100 * share);
    sheet.interval(
        Measure.LENGTH_CURVE,
        slice,
        "completed",
        title,
        "%",
        Reckoned.known(
            percent(
                new Interval(
                    Math.max(0, interval.low()), Math.min(1, interval.high()), Sheet.LEVEL))));
  }

  private void survival(Slice slice, String code, String title, SurvivalCurve curve, int day) {
    sheet.value(Measure.LENGTH_CURVE, slice, Statistic.share(code, title), 100 * curve.at(day));
    Reckoned<Interval> interval = Reckoned.lacking("nobody has ended yet");
    for (SurvivalCurve.Step step : curve.steps()) {
      if (step.time() <= day) {
        interval = step.interval(Sheet.LEVEL);
      }
    }
    sheet.interval(
        Measure.LENGTH_CURVE, slice, code, title, "%", interval.map(CourseFigures::percent));
  }

  private static Interval percent(Interval share) {
    return new Interval(100 * share.low(), 100 * share.high(), share.level());
  }
}
