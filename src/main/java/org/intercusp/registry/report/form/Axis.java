package org.intercusp.registry.report.form;

import java.util.ArrayList;
import java.util.List;

/** A numeric axis from round number to round number over so many pixels. */
record Axis(double low, double high, double start, double end) {

  private static final int TICKS = 5;

  /** Wide enough for all values; a share's axis starts at 0. */
  static Axis over(List<Double> values, double start, double end) {
    double low = Math.min(0, values.stream().mapToDouble(Double::doubleValue).min().orElse(0));
    double high = Math.max(0, values.stream().mapToDouble(Double::doubleValue).max().orElse(1));
    if (high - low < 1e-9) {
      high = low + 1;
    }
    double step = step(high - low);
    return new Axis(Math.floor(low / step) * step, Math.ceil(high / step) * step, start, end);
  }

  private static double step(double range) {
    double rough = range / TICKS;
    double power = Math.pow(10, Math.floor(Math.log10(rough)));
    double lead = rough / power;
    return power * (lead <= 1 ? 1 : lead <= 2 ? 2 : lead <= 5 ? 5 : 10);
  }

  double at(double value) {
    return start + (value - low) / (high - low) * (end - start);
  }

  List<Double> ticks() {
    double step = step(high - low);
    List<Double> ticks = new ArrayList<>();
    for (int i = 0; low + i * step <= high + step / 1e6; i++) {
      ticks.add(low + i * step);
    }
    return ticks;
  }
}
