package org.intercusp.analysis.agreement;

import java.util.Arrays;
import java.util.List;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Source;

/**
 * Two readings of each subject, in one unit, and how well they agree. Results are in that unit.
 *
 * @param differences first less second reading, one a subject
 */
public record Pairs(List<Double> differences) {

  /** Method error of repeated tracings: from memory of the 1940 study that introduced it. */
  public static final Source METHOD_ERROR =
      Source.memoryOf("Statistical Methods for Medical and Biological Students, London 1940");

  public static final Source LIMITS_OF_AGREEMENT = Source.published("Lancet 1986;i:307-310");

  public Pairs {
    differences = List.copyOf(differences);
    if (!differences.stream().allMatch(Double::isFinite)) {
      throw new IllegalArgumentException("readings are finite numbers");
    }
  }

  /** Pairs from first and second readings of the same subjects in the same order. */
  public static Pairs of(double[] first, double[] second) {
    if (first.length != second.length) {
      throw new IllegalArgumentException("each subject has two readings");
    }
    Double[] differences = new Double[first.length];
    Arrays.setAll(differences, i -> first[i] - second[i]);
    return new Pairs(List.of(differences));
  }

  /** Method error {@code sqrt(sum d^2 / 2n)}. */
  public Reckoned<Double> methodError() {
    if (differences.isEmpty()) {
      return Reckoned.lacking("no subject was read twice");
    }
    double squares = differences.stream().mapToDouble(d -> d * d).sum();
    return Reckoned.known(Math.sqrt(squares / (2.0 * differences.size())));
  }

  /** Bias and limits of agreement; needs two subjects. */
  public Reckoned<LimitsOfAgreement> limitsOfAgreement() {
    if (differences.size() < 2) {
      return Reckoned.lacking("limits of agreement need two subjects read twice");
    }
    DescriptiveStatistics statistics = new DescriptiveStatistics();
    differences.forEach(statistics::addValue);
    return Reckoned.known(
        new LimitsOfAgreement(
            differences.size(), statistics.getMean(), statistics.getStandardDeviation()));
  }

  /**
   * Bias and limits of agreement (Lancet 1986;i:307-310).
   *
   * @param subjects two or more
   * @param bias mean difference
   * @param deviation standard deviation of the differences
   */
  public record LimitsOfAgreement(int subjects, double bias, double deviation) {

    /** The usual multiplier; the paper itself rounds it to 2. */
    public static final double USUAL = 1.96;

    public double lower(double multiplier) {
      return bias - multiplier * deviation;
    }

    public double upper(double multiplier) {
      return bias + multiplier * deviation;
    }

    public Interval biasInterval(double level) {
      return Interval.student(bias, deviation / Math.sqrt(subjects), subjects - 1.0, level);
    }

    /** Interval of a limit, with the paper's standard error {@code sqrt(3 s^2 / n)}. */
    public Interval limitInterval(double limit, double level) {
      double error = Math.sqrt(3 * deviation * deviation / subjects);
      return Interval.student(limit, error, subjects - 1.0, level);
    }
  }
}
