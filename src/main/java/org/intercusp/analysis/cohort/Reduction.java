package org.intercusp.analysis.cohort;

import java.util.List;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.index.ParChange;

/**
 * Mean reduction of a weighted rating over cases with both scores and a score above 0 before, in
 * per cent. Two readings: the mean of percentages, compared with the high standard of 70 (Eur J
 * Orthod 1992;14:180-187), and the reduction of the sums with a delta-method interval.
 *
 * @param cases that count
 * @param left cases left out because the score before was 0
 * @param ofPercentages mean of each case's percentage
 * @param ofSums {@code 100 (sum before - sum after) / sum before}
 */
public record Reduction(int cases, int left, Estimate ofPercentages, Estimate ofSums) {

  /** A mean above this is the high standard, in per cent. */
  public static final double HIGH_STANDARD = 70;

  /** What binary rounding leaves of the squares of cases that are all alike. */
  private static final double NOISE = 1e-14;

  public static Reckoned<Reduction> of(List<ParChange> all, double level) {
    List<ParChange> cases = all.stream().filter(each -> each.before() > 0).toList();
    int left = all.size() - cases.size();
    if (cases.isEmpty()) {
      return Reckoned.lacking("no case has both scores and a score above 0 before");
    }
    return Reckoned.known(
        new Reduction(cases.size(), left, ofPercentages(cases, level), ofSums(cases, level)));
  }

  /** The same from sums over the cases, as an engine counts them. */
  public static Reckoned<Reduction> of(Sums sums, int left, double level) {
    return sums.cases == 0
        ? Reckoned.lacking("no case has both scores and a score above 0 before")
        : Reckoned.known(
            new Reduction(sums.cases, left, ofPercentages(sums, level), ofSums(sums, level)));
  }

  private static Estimate ofPercentages(List<ParChange> cases, double level) {
    DescriptiveStatistics percent = new DescriptiveStatistics();
    cases.forEach(each -> percent.addValue(100.0 * each.reduction() / each.before()));
    return mean(cases.size(), percent.getMean(), percent.getStandardDeviation(), level);
  }

  private static Estimate ofPercentages(Sums sums, double level) {
    double n = sums.cases;
    double mean = sums.percent / n;
    double rest = sums.percentSquares - n * mean * mean;
    double squares = rest > NOISE * sums.percentSquares ? rest : 0;
    return mean(sums.cases, mean, Math.sqrt(squares / Math.max(1, n - 1)), level);
  }

  private static Estimate mean(int n, double mean, double deviation, double level) {
    return new Estimate(
        mean,
        n < 2
            ? tooFew()
            : Reckoned.known(Interval.student(mean, deviation / Math.sqrt(n), n - 1.0, level)));
  }

  private static Estimate ofSums(List<ParChange> cases, double level) {
    double before = 0;
    double after = 0;
    double beforeSquares = 0;
    double afterSquares = 0;
    double products = 0;
    for (ParChange each : cases) {
      before += each.before();
      after += each.after();
      beforeSquares += (double) each.before() * each.before();
      afterSquares += (double) each.after() * each.after();
      products += (double) each.before() * each.after();
    }
    return ofSums(
        new Sums(cases.size(), before, after, beforeSquares, afterSquares, products, 0, 0), level);
  }

  /** Variance of the ratio of two sums by the delta method: that of its residuals. */
  private static Estimate ofSums(Sums sums, double level) {
    double ratio = sums.after / sums.before;
    double percent = 100 * (1 - ratio);
    double n = sums.cases;
    if (n < 2) {
      return new Estimate(percent, tooFew());
    }
    double squares =
        sums.afterSquares - 2 * ratio * sums.products + ratio * ratio * sums.beforeSquares;
    double error = 100 * Math.sqrt(n * Math.max(0, squares) / (n - 1)) / sums.before;
    return new Estimate(percent, Reckoned.known(Interval.normal(percent, error, level)));
  }

  private static Reckoned<Interval> tooFew() {
    return Reckoned.lacking("an interval needs two cases");
  }

  /**
   * Sums over the cases that count, in points and per cent and their squares.
   *
   * @param products sum of before times after
   * @param percent sum of each case's percentage
   */
  public record Sums(
      int cases,
      double before,
      double after,
      double beforeSquares,
      double afterSquares,
      double products,
      double percent,
      double percentSquares) {}

  /** A value in per cent with its interval. */
  public record Estimate(double percent, Reckoned<Interval> interval) {}
}
