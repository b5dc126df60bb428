package org.intercusp.registry.report.form;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** The four kinds of chart of the report. */
final class Charts {

  private static final int WIDTH = 640;
  private static final int LEFT = 210;
  private static final int RIGHT = 620;
  private static final int ROW = 20;

  /** Characters that stand left of the charts in the page's type. */
  private static final int LABEL = 30;

  private static final int TOP = 14;
  private static final int FOOT = 44;

  private Charts() {}

  /**
   * A value with its interval a row.
   *
   * @param reach what the line through a dot means, where it has one
   */
  static String dots(String id, String title, String unit, String reach, List<Dot> dots) {
    List<Double> values = new ArrayList<>();
    for (Dot dot : dots) {
      values.add(dot.value);
      if (dot.low != null && dot.high != null) {
        values.add(dot.low);
        values.add(dot.high);
      }
    }
    int bottom = TOP + ROW * dots.size();
    boolean reaching = dots.stream().anyMatch(dot -> dot.low != null && dot.high != null);
    String shown = reaching ? title + ", with " + reach : title;
    Axis x = Axis.over(values, LEFT, RIGHT);
    Svg svg =
        new Svg(
            WIDTH,
            bottom + FOOT,
            id,
            shown,
            shown + ": a dot a row, " + unit + "; the numbers are in the table.");
    across(svg, x, TOP, bottom, unit);
    for (int i = 0; i < dots.size(); i++) {
      Dot dot = dots.get(i);
      double y = TOP + ROW * (i + 0.5);
      svg.text(LEFT - 8, y + 4, "end", shortened(dot.label));
      if (dot.low != null && dot.high != null) {
        svg.line(x.at(dot.low), y, x.at(dot.high), y, "reach");
      }
      svg.dot(x.at(dot.value), y, "dot");
    }
    return svg.drawn();
  }

  /** Shares of a whole a row, in per cent. */
  static String bars(String id, String title, List<String> parts, List<Bar> bars) {
    int legend = 16 * parts.size();
    int bottom = TOP + legend + ROW * bars.size();
    Axis x = new Axis(0, 100, LEFT, RIGHT);
    Svg svg =
        new Svg(
            WIDTH,
            bottom + FOOT,
            id,
            title + ", parts of each group",
            title + ": parts of each group in per cent; the numbers are in the table.");
    for (int p = 0; p < parts.size(); p++) {
      svg.rectangle(LEFT, TOP + 16 * p - 8, 12, 12, "part part-" + p);
      svg.text(LEFT + 18, TOP + 16 * p + 2, "start", parts.get(p));
    }
    across(svg, x, TOP + legend, bottom, "% of what is counted in each row");
    for (int i = 0; i < bars.size(); i++) {
      Bar bar = bars.get(i);
      double y = TOP + legend + ROW * i;
      svg.text(LEFT - 8, y + 14, "end", shortened(bar.label));
      double all = bar.parts.stream().mapToDouble(Double::doubleValue).sum();
      double done = 0;
      for (int p = 0; p < bar.parts.size() && all > 0; p++) {
        double share = 100 * bar.parts.get(p) / all;
        svg.rectangle(
            x.at(done), y + 3, x.at(done + share) - x.at(done), ROW - 6, "part part-" + p);
        done += share;
      }
    }
    return svg.drawn();
  }

  private static void across(Svg svg, Axis x, int top, int bottom, String unit) {
    for (double tick : x.ticks()) {
      svg.line(x.at(tick), top, x.at(tick), bottom, "grid");
      svg.text(x.at(tick), bottom + 16, "middle", Digits.shown(Math.round(tick * 1e6) / 1e6));
    }
    svg.text((LEFT + RIGHT) / 2.0, bottom + 36, "middle", unit);
  }

  /**
   * Curves over days, shares in per cent, with bands: straight from one shown day to the next, since
   * a step would say that nobody ends on the days between, some of which are hidden.
   */
  static String curves(String id, String title, List<Curve> curves) {
    int bottom = 320;
    List<Double> days = new ArrayList<>();
    curves.forEach(curve -> curve.points.forEach(point -> days.add(point.x)));
    Axis x = Axis.over(days, 60, RIGHT);
    Axis y = new Axis(0, 100, bottom, TOP);
    Svg svg =
        new Svg(
            WIDTH,
            bottom + FOOT + 18 * curves.size(),
            id,
            title + ", with 95 % bands",
            title + ": share of cases by day with 95 % bands; the numbers are in the table.");
    frame(svg, x, y, "days from the first active fitting");
    for (int c = 0; c < curves.size(); c++) {
      Curve curve = curves.get(c);
      svg.path(band(curve, x, y), "band band-" + c);
      svg.path(line(curve, x, y), "curve curve-" + c);
      double legend = bottom + FOOT + 18 * c;
      svg.line(60, legend, 100, legend, "curve curve-" + c);
      svg.text(108, legend + 4, "start", curve.label);
    }
    return svg.drawn();
  }

  private static void frame(Svg svg, Axis x, Axis y, String below) {
    for (double tick : y.ticks()) {
      svg.line(x.start(), y.at(tick), x.end(), y.at(tick), "grid");
      svg.text(x.start() - 6, y.at(tick) + 4, "end", Digits.shown(Math.round(tick * 1e6) / 1e6));
    }
    svg.text(8, TOP - 3, "start", "%");
    for (double tick : x.ticks()) {
      svg.text(x.at(tick), y.start() + 16, "middle", Digits.shown(Math.round(tick * 1e6) / 1e6));
    }
    svg.text((x.start() + x.end()) / 2, y.start() + 34, "middle", below);
  }

  private static String line(Curve curve, Axis x, Axis y) {
    StringBuilder path = new StringBuilder();
    for (Point point : curve.points) {
      path.append(path.isEmpty() ? "M" : "L")
          .append(x.at(point.x))
          .append(' ')
          .append(y.at(point.y));
    }
    return path.toString();
  }

  private static String band(Curve curve, Axis x, Axis y) {
    List<Point> reached =
        curve.points.stream().filter(point -> point.low != null && point.high != null).toList();
    StringBuilder path = new StringBuilder();
    for (Point point : reached) {
      path.append(path.isEmpty() ? "M" : "L")
          .append(x.at(point.x))
          .append(' ')
          .append(y.at(point.low == null ? 0 : point.low));
    }
    for (int i = reached.size() - 1; i >= 0; i--) {
      Point point = reached.get(i);
      path.append('L')
          .append(x.at(point.x))
          .append(' ')
          .append(y.at(point.high == null ? 0 : point.high));
    }
    return path.isEmpty() ? "M0 0" : path.append('Z').toString();
  }

  /** Clinics by size, with limits that narrow. */
  static String funnel(String id, String title, double centre, List<Clinic> clinics) {
    int bottom = 340;
    List<Clinic> sorted =
        clinics.stream().sorted((one, other) -> Double.compare(one.cases, other.cases)).toList();
    List<Double> shares = new ArrayList<>(List.of(centre));
    sorted.forEach(
        clinic -> {
          shares.add(clinic.share);
          clinic.limits.forEach(shares::add);
        });
    Axis x = Axis.over(sorted.stream().map(Clinic::cases).toList(), 60, RIGHT);
    Axis y = Axis.over(shares, bottom, TOP);
    Svg svg =
        new Svg(
            WIDTH,
            bottom + FOOT + 72,
            id,
            title + ", each clinic by its cases",
            title
                + ": each clinic's share by its cases, exact limits solid, normal limits dashed, 95 % inside 99.8 %; the numbers are in the table.");
    frame(svg, x, y, "cases");
    svg.line(60, y.at(centre), RIGHT, y.at(centre), "centre");
    List<Clinic> limited = sorted.stream().filter(clinic -> clinic.limits.size() == 8).toList();
    for (int l = 0; l < 8; l++) {
      StringBuilder path = new StringBuilder();
      for (Clinic clinic : limited) {
        path.append(path.isEmpty() ? "M" : "L")
            .append(x.at(clinic.cases))
            .append(' ')
            .append(y.at(clinic.limits.get(l)));
      }
      svg.path(path.isEmpty() ? "M0 0" : path.toString(), l < 4 ? "limit exact" : "limit normal");
    }
    sorted.forEach(
        clinic ->
            svg.dot(
                x.at(clinic.cases),
                y.at(clinic.share),
                clinic.limits.isEmpty() ? "dot unjudged" : "dot"));
    double legend = bottom + FOOT + 4;
    svg.line(60, legend, 100, legend, "limit exact")
        .text(108, legend + 4, "start", "exact limits, 95 % and 99.8 %");
    svg.line(60, legend + 18, 100, legend + 18, "limit normal")
        .text(108, legend + 22, "start", "normal limits, 95 % and 99.8 %");
    svg.dot(80, legend + 36, "dot unjudged")
        .text(108, legend + 40, "start", "open: shown, not judged");
    svg.line(60, legend + 54, 100, legend + 54, "centre")
        .text(108, legend + 58, "start", "share over all");
    return svg.drawn();
  }

  private static String shortened(String label) {
    return label.length() <= LABEL ? label : label.substring(0, LABEL - 1) + "\u2026";
  }

  /** A row of a dot chart. */
  record Dot(String label, double value, @Nullable Double low, @Nullable Double high) {}

  /** A row of a bar chart: sizes of its parts. */
  record Bar(String label, List<Double> parts) {}

  /** A named curve. */
  record Curve(String label, List<Point> points) {}

  /** A point of a curve with its interval. */
  record Point(double x, double y, @Nullable Double low, @Nullable Double high) {}

  /**
   * A clinic in a funnel; limits exact inner, exact outer, normal inner, normal outer, low first.
   */
  record Clinic(double cases, double share, List<Double> limits) {}
}
