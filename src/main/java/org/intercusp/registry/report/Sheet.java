package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.agreement.Proportion;

/** Collects the figures of a report in the order they are shown. */
final class Sheet {

  static final double LEVEL = 0.95;

  private final List<Figure> figures = new ArrayList<>();

  void value(Measure measure, Slice slice, Statistic statistic, double value) {
    figures.add(new Figure(measure, slice, statistic, value, null));
  }

  void value(Measure measure, Slice slice, Statistic statistic, Reckoned<Double> value) {
    value
        .result()
        .ifPresentOrElse(
            known -> value(measure, slice, statistic, known),
            () -> absent(measure, slice, statistic, value.reason()));
  }

  void hide(Measure measure, Slice slice, Statistic statistic) {
    absent(measure, slice, statistic, Figure.HIDDEN);
  }

  void absent(Measure measure, Slice slice, Statistic statistic, String why) {
    figures.add(new Figure(measure, slice, statistic, null, why));
  }

  void interval(
      Measure measure,
      Slice slice,
      String code,
      String title,
      String unit,
      Reckoned<Interval> interval) {
    value(measure, slice, low(code, title, unit), interval.map(Interval::low));
    value(measure, slice, high(code, title, unit), interval.map(Interval::high));
  }

  void hideInterval(Measure measure, Slice slice, String code, String title, String unit) {
    hide(measure, slice, low(code, title, unit));
    hide(measure, slice, high(code, title, unit));
  }

  private static Statistic low(String code, String title, String unit) {
    return new Statistic(code + "-low", title + ", 95 % from", unit);
  }

  private static Statistic high(String code, String title, String unit) {
    return new Statistic(code + "-high", title + ", 95 % to", unit);
  }

  /** A share in per cent with Wilson's interval. */
  void share(Measure measure, Slice slice, String code, String title, Proportion proportion) {
    value(
        measure, slice, Statistic.share(code, title), proportion.share().map(share -> 100 * share));
    interval(
        measure,
        slice,
        code,
        title,
        "%",
        proportion
            .wilson(LEVEL)
            .map(each -> new Interval(100 * each.low(), 100 * each.high(), each.level())));
  }

  void hideShare(Measure measure, Slice slice, String code, String title) {
    hide(measure, slice, Statistic.share(code, title));
    hideInterval(measure, slice, code, title, "%");
  }

  List<Figure> figures() {
    return List.copyOf(figures);
  }
}
