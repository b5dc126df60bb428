package org.intercusp.registry.report.form;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.intercusp.registry.report.Dimension;
import org.intercusp.registry.report.Slice;
import org.junit.jupiter.api.Test;

/** What a reader sees in a chart: rows that say what they are, curves inside their bands. */
class ChartsTest {

  @Test
  void rowsSayWhatTheyAre() {
    Labels labels =
        new Labels(
            List.of(
                new Slice(Dimension.CLINIC, "urn:a|North|West"),
                new Slice(Dimension.CLINIC, "urn:a|South|West"),
                new Slice(Dimension.CLINIC, "urn:a|East"),
                new Slice(Dimension.CLINIC, "urn:b|East")));
    assertThat(labels.of(new Slice(Dimension.CLINIC, "urn:a|North|West"))).isEqualTo("North|West");
    assertThat(labels.of(new Slice(Dimension.CLINIC, "urn:b|East"))).isEqualTo("urn:b|East");
    assertThat(labels.of(new Slice(Dimension.GROWTH, "not recorded")))
        .isEqualTo("growth not recorded");
    assertThat(labels.of(new Slice(Dimension.AGE, "10-11"))).isEqualTo("age 10-11");
    assertThat(labels.of(new Slice(Dimension.YEAR, "2021"))).isEqualTo("year 2021");
    assertThat(labels.of(Slice.ALL)).isEqualTo("all cases");
  }

  /** Between two days that are far apart, since those between are hidden. */
  @Test
  void aCurveStaysInsideItsBand() {
    String drawn =
        Charts.curves(
            "id",
            "Curves",
            List.of(
                new Charts.Curve(
                    "Still treated",
                    List.of(
                        new Charts.Point(0, 100, 99.0, 100.0),
                        new Charts.Point(600, 40, 38.0, 42.0)))));
    List<double[]> band = path(drawn, "band band-0");
    List<double[]> curve = path(drawn, "curve curve-0");
    for (double x = curve.get(0)[0]; x <= curve.get(curve.size() - 1)[0]; x += 10) {
      double y = at(curve, x);
      assertThat(y)
          .isBetween(at(band.subList(2, 4), x), at(band.subList(0, 2), x));
    }
  }

  private static List<double[]> path(String svg, String type) {
    Matcher path = Pattern.compile("<path d=\"([^\"]+)\" class=\"" + type + "\"").matcher(svg);
    assertThat(path.find()).isTrue();
    List<double[]> points = new ArrayList<>();
    double[] last = new double[2];
    Matcher step = Pattern.compile("([MLHV])([0-9.]+)(?: ([0-9.]+))?").matcher(path.group(1));
    while (step.find()) {
      double first = Double.parseDouble(step.group(2));
      last =
          switch (step.group(1)) {
            case "H" -> new double[] {first, last[1]};
            case "V" -> new double[] {last[0], first};
            default -> new double[] {first, Double.parseDouble(step.group(3))};
          };
      points.add(last);
    }
    return points;
  }

  /** Height of a line at a place; higher is less. */
  private static double at(List<double[]> line, double x) {
    for (int i = 1; i < line.size(); i++) {
      double[] from = line.get(i - 1);
      double[] to = line.get(i);
      if (Math.min(from[0], to[0]) <= x && x <= Math.max(from[0], to[0]) && from[0] != to[0]) {
        return from[1] + (to[1] - from[1]) * (x - from[0]) / (to[0] - from[0]);
      }
    }
    throw new AssertionError("nothing at " + x);
  }
}
