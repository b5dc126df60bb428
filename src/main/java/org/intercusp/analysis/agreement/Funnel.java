package org.intercusp.analysis.agreement;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.hipparchus.distribution.discrete.BinomialDistribution;
import org.intercusp.finding.Source;

/**
 * Limits of a funnel of shares around a centre (Stat Med 2005;24:1185-1202, from memory).
 *
 * @param centre share expected, 0 to 1
 */
public record Funnel(double centre) {

  public static final Source SOURCE = Source.memoryOf("Stat Med 2005;24:1185-1202");

  /** Two-sided 95 %: the inner limits. */
  public static final double INNER = 1.96;

  /** Two-sided 99.8 %: the outer limits. */
  public static final double OUTER = 3.09;

  public Funnel {
    if (!(centre >= 0 && centre <= 1)) {
      throw new IllegalArgumentException("the centre of a funnel is a share");
    }
  }

  /** Exact limits for so many cases, interpolated between counts, within 0 and 1. */
  public Limits exact(int cases, double z) {
    requireCases(cases);
    NormalDistribution normal = new NormalDistribution();
    return limits(
        quantile(cases, normal.cumulativeProbability(-z)),
        quantile(cases, normal.cumulativeProbability(z)));
  }

  private double quantile(int cases, double probability) {
    if (centre == 0 || centre == 1) {
      return centre;
    }
    BinomialDistribution binomial = new BinomialDistribution(cases, centre);
    int count = binomial.inverseCumulativeProbability(probability);
    double beyond =
        (binomial.cumulativeProbability(count) - probability) / binomial.probability(count);
    return (count - beyond) / cases;
  }

  /** Limits under the normal approximation, within 0 and 1. */
  public Limits normal(int cases, double z) {
    requireCases(cases);
    double reach = z * standardError(cases);
    return limits(centre - reach, centre + reach);
  }

  /** Limits moved away from the centre by the square root of the overdispersion. */
  public Limits widened(Limits limits, Overdispersion dispersion) {
    double factor = dispersion.factor();
    return limits(
        centre + (limits.low() - centre) * factor, centre + (limits.high() - centre) * factor);
  }

  /** How many standard errors a clinic lies from the centre; 0 where the centre has no spread. */
  public double z(Proportion clinic) {
    requireCases(clinic.of());
    double error = standardError(clinic.of());
    return error == 0 ? 0 : ((double) clinic.events() / clinic.of() - centre) / error;
  }

  private double standardError(int cases) {
    return Math.sqrt(centre * (1 - centre) / cases);
  }

  private static Limits limits(double low, double high) {
    return new Limits(Math.max(0, low), Math.min(1, high));
  }

  private static void requireCases(int cases) {
    if (cases < 1) {
      throw new IllegalArgumentException("a clinic in a funnel has a case");
    }
  }

  /** Lower and upper limit as shares. */
  public record Limits(double low, double high) {}
}
