package org.intercusp.analysis.agreement;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.continuous.TDistribution;

/**
 * An interval in the unit of what it is about.
 *
 * @param level confidence, 0 to 1: 0.95
 */
public record Interval(double low, double high, double level) {

  public Interval {
    if (!(low <= high) || !(level > 0 && level < 1)) {
      throw new IllegalArgumentException("an interval has ends in order and a level below 1");
    }
  }

  public boolean covers(double value) {
    return low <= value && value <= high;
  }

  /** Estimate and standard error under the normal distribution. */
  public static Interval normal(double estimate, double error, double level) {
    double reach = normalQuantile(level) * error;
    return new Interval(estimate - reach, estimate + reach, level);
  }

  /** Estimate and standard error under Student's distribution. */
  public static Interval student(double estimate, double error, double freedom, double level) {
    double reach = new TDistribution(freedom).inverseCumulativeProbability((1 + level) / 2) * error;
    return new Interval(estimate - reach, estimate + reach, level);
  }

  /** The two-sided normal quantile: 1.96 for 0.95. */
  static double normalQuantile(double level) {
    return new NormalDistribution().inverseCumulativeProbability((1 + level) / 2);
  }
}
