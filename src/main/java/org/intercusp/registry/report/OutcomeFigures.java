package org.intercusp.registry.report;

import java.util.List;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.agreement.Proportion;
import org.intercusp.analysis.cohort.Reduction;

/** Scores and measurements before and after, by group. */
final class OutcomeFigures {

  private static final List<Category> PAR_CLASSES =
      List.of(
          new Category("greatly", "greatly-improved", "Greatly improved"),
          new Category("improved", "improved", "Improved"),
          new Category("worse", "worse-or-no-different", "Worse or no different"));
  private static final List<Category> ICON_CLASSES =
      List.of(
          new Category("greatly", "greatly-improved", "Greatly improved"),
          new Category("substantially", "substantially-improved", "Substantially improved"),
          new Category("moderately", "moderately-improved", "Moderately improved"),
          new Category("minimally", "minimally-improved", "Minimally improved"),
          new Category("not", "not-improved-or-worse", "Not improved or worse"));
  private static final List<Category> DHC_CLASSES =
      List.of(
          new Category("better", "better", "Better grade"),
          new Category("same", "same", "Same grade"),
          new Category("worse", "worse", "Worse grade"));

  private static final double NOISE = 1e-14;

  private final Cube cube;
  private final SmallCells cells;
  private final Sheet sheet;

  OutcomeFigures(Cube cube, SmallCells cells, Sheet sheet) {
    this.cube = cube;
    this.cells = cells;
    this.sheet = sheet;
  }

  void par(Measure measure, Slice slice, String par) {
    String n = par + "_n";
    cases(measure, slice, n);
    if (cells.hidden(slice, n)) {
      sheet.absent(
          measure, slice, Statistic.share("percent", "Mean of percentages"), Figure.HIDDEN);
      return;
    }
    Change change = products(slice, par);
    change(measure, slice, change);
    Reduction.Sums sums =
        new Reduction.Sums(
            change.n,
            change.before,
            change.after,
            cube.sum(slice, par + "_sbb"),
            cube.sum(slice, par + "_saa"),
            cube.sum(slice, par + "_sab"),
            100 * cube.sum(slice, par + "_sp"),
            100 * 100 * cube.sum(slice, par + "_spp"));
    Reckoned<Reduction> reduction = Reduction.of(sums, 0, Sheet.LEVEL);
    estimate(
        measure, slice, "percent", "Mean of percentages", reduction.map(Reduction::ofPercentages));
    estimate(
        measure, slice, "percent-of-sums", "Percentage of sums", reduction.map(Reduction::ofSums));
    classes(measure, slice, par, n, PAR_CLASSES);
  }

  private void estimate(
      Measure measure,
      Slice slice,
      String code,
      String title,
      Reckoned<Reduction.Estimate> estimate) {
    sheet.value(
        measure, slice, Statistic.share(code, title), estimate.map(Reduction.Estimate::percent));
    sheet.interval(
        measure, slice, code, title, "%", estimate.flatMap(Reduction.Estimate::interval));
  }

  void icon(Slice slice) {
    cases(Measure.ICON, slice, "icon_n");
    if (!cells.hidden(slice, "icon_n")) {
      change(Measure.ICON, slice, squares(slice, "icon"));
      classes(Measure.ICON, slice, "icon", "icon_n", ICON_CLASSES);
    }
  }

  void dhc(Slice slice) {
    cases(Measure.DHC, slice, "dhc_n");
    if (!cells.hidden(slice, "dhc_n")) {
      classes(Measure.DHC, slice, "dhc", "dhc_n", DHC_CLASSES);
    }
    proportion(Measure.DHC, slice, "need_before", "need_n", "need-at-start", "In need at start");
    proportion(Measure.DHC, slice, "need_after", "need_n", "need-at-end", "In need at end");
  }

  void measurement(Measure measure, Slice slice, String prefix) {
    cases(measure, slice, prefix + "_n");
    if (!cells.hidden(slice, prefix + "_n")) {
      change(measure, slice, squares(slice, prefix));
    }
  }

  void wear(Measure measure, Slice slice, String column) {
    cases(measure, slice, column + "_n");
    int n = cube.count(slice, column + "_n");
    if (n > 0 && !cells.hidden(slice, column + "_n")) {
      double sum = cube.sum(slice, column + "_s");
      spread(
          measure, slice, n, sum, cube.sum(slice, column + "_ss"), "mean", "Mean");
    }
  }

  private void cases(Measure measure, Slice slice, String column) {
    Statistic n = Statistic.count("cases", "Cases");
    boolean completed = column.startsWith(Cube.COMPLETED);
    String whole = completed ? "now_completed" : "cases";
    Statistic known = Statistic.share("known", completed ? "Of those completed" : "Of all cases");
    if (cells.hidden(slice, column)) {
      sheet.hide(measure, slice, n);
      sheet.hide(measure, slice, known);
    } else {
      int count = cube.count(slice, column);
      sheet.value(measure, slice, n, count);
      if (!cells.hidden(slice, whole)) {
        sheet.value(
            measure,
            slice,
            known,
            new Proportion(count, cube.count(slice, whole)).share().map(share -> 100 * share));
      }
    }
  }

  /** A part of a whole: count, share and interval. */
  void proportion(
      Measure measure, Slice slice, String part, String whole, String code, String title) {
    String shareCode = code + "-share";
    String shareTitle = title + ", share";
    if (cells.hidden(slice, part) || cells.hidden(slice, whole)) {
      sheet.hide(measure, slice, Statistic.count(code, title));
      sheet.hideShare(measure, slice, shareCode, shareTitle);
    } else {
      int count = cube.count(slice, part);
      sheet.value(measure, slice, Statistic.count(code, title), count);
      sheet.share(
          measure, slice, shareCode, shareTitle, new Proportion(count, cube.count(slice, whole)));
    }
  }

  private void classes(
      Measure measure, Slice slice, String prefix, String whole, List<Category> categories) {
    for (Category category : categories) {
      proportion(
          measure, slice, prefix + "_" + category.column, whole, category.code, category.title);
    }
  }

  private Change products(Slice slice, String prefix) {
    double products = cube.sum(slice, prefix + "_sab");
    double squares =
        cube.sum(slice, prefix + "_sbb") + cube.sum(slice, prefix + "_saa") - 2 * products;
    return new Change(
        cube.count(slice, prefix + "_n"),
        cube.sum(slice, prefix + "_sb"),
        cube.sum(slice, prefix + "_sa"),
        squares);
  }

  private Change squares(Slice slice, String prefix) {
    return new Change(
        cube.count(slice, prefix + "_n"),
        cube.sum(slice, prefix + "_sb"),
        cube.sum(slice, prefix + "_sa"),
        cube.sum(slice, prefix + "_sdd"));
  }

  private void change(Measure measure, Slice slice, Change change) {
    if (change.n == 0) {
      return;
    }
    sheet.value(measure, slice, of(measure, "before", "Before, mean"), change.before / change.n);
    sheet.value(measure, slice, of(measure, "after", "After, mean"), change.after / change.n);
    double sum = change.before - change.after;
    spread(
        measure,
        slice,
        change.n,
        sum,
        change.squares,
        "change",
        "Change, mean");
  }

  private void spread(
      Measure measure, Slice slice, int n, double sum, double squares, String code, String title) {
    double mean = sum / n;
    double rest = squares - sum * mean;
    // What binary rounding leaves of cases that are all alike is no spread.
    double around = rest > NOISE * squares ? rest : 0;
    sheet.value(measure, slice, of(measure, code, title), mean);
    Reckoned<Double> deviation =
        n < 2
            ? Reckoned.lacking("a deviation needs two cases")
            : Reckoned.known(Math.sqrt(around / (n - 1)));
    sheet.value(
        measure, slice, of(measure, code + "-sd", title + ", standard deviation"), deviation);
    sheet.interval(
        measure,
        slice,
        code,
        title,
        measure.unit(),
        deviation.map(sd -> Interval.student(mean, sd / Math.sqrt(n), n - 1.0, Sheet.LEVEL)));
  }

  private static Statistic of(Measure measure, String code, String title) {
    return new Statistic(code, title, measure.unit());
  }

  private record Category(String column, String code, String title) {}

  /** Sums of so many cases; squares of the differences. */
  private record Change(int n, double before, double after, double squares) {}
}
