package org.intercusp.analysis.agreement;

import java.util.Arrays;
import org.hipparchus.stat.descriptive.rank.Percentile;
import org.hipparchus.stat.descriptive.rank.Percentile.EstimationType;
import org.intercusp.analysis.Reckoned;

/**
 * How much more clinics differ than chance: phi, the mean square of their z scores drawn in to the
 * 10th and 90th percentile (Stat Med 2005;24:1185-1202, from memory). It counts from ten clinics on
 * and above {@code 1 + 2 sqrt(2 / clinics)}.
 */
public record Overdispersion(int clinics, double phi) {

  private static final int FEWEST = 10;
  private static final double LOW_TAIL = 10;
  private static final double HIGH_TAIL = 90;

  public static Reckoned<Overdispersion> of(double[] z) {
    if (z.length == 0) {
      return Reckoned.lacking("there is no clinic to compare");
    }
    Percentile percentile = new Percentile().withEstimationType(EstimationType.R_7);
    double low = percentile.evaluate(z, LOW_TAIL);
    double high = percentile.evaluate(z, HIGH_TAIL);
    double squares =
        Arrays.stream(z).map(each -> Math.min(high, Math.max(low, each))).map(d -> d * d).sum();
    return Reckoned.known(new Overdispersion(z.length, squares / z.length));
  }

  /** Whether it counts. */
  public boolean applies() {
    return clinics >= FEWEST && phi > 1 + 2 * Math.sqrt(2.0 / clinics);
  }

  /** By how much the limits move away from the centre: 1 where it does not count. */
  public double factor() {
    return applies() ? Math.sqrt(phi) : 1;
  }
}
