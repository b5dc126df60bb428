package org.intercusp.analysis.cohort;

import java.util.List;
import org.hipparchus.stat.descriptive.DescriptiveStatistics;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.index.ParChange;
import org.intercusp.finding.Source;

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

  public static final Source SOURCE = ParChange.SOURCE;

  /** A mean above this is the high standard, in per cent. */
  public static final double HIGH_STANDARD = 70;

  public static Reckoned<Reduction> of(List<ParChange> all, double level) {
    List<ParChange> cases = all.stream().filter(each -> each.before() > 0).toList();
    int left = all.size() - cases.size();
    if (cases.isEmpty()) {
      return Reckoned.lacking("no case has both scores and a score above 0 before");
    }
    return Reckoned.known(
        new Reduction(cases.size(), left, ofPercentages(cases, level), ofSums(cases, level)));
  }

  private static Estimate ofPercentages(List<ParChange> cases, double level) {
    DescriptiveStatistics percent = new DescriptiveStatistics();
    cases.forEach(each -> percent.addValue(100.0 * each.reduction() / each.before()));
    double n = cases.size();
    return new Estimate(
        percent.getMean(),
        n < 2
            ? tooFew()
            : Reckoned.known(
                Interval.student(
                    percent.getMean(),
                    percent.getStandardDeviation() / Math.sqrt(n),
                    n - 1,
                    level)));
  }

  /** Variance of the ratio of two sums by the delta method: that of its residuals. */
  private static Estimate ofSums(List<ParChange> cases, double level) {
    double before = cases.stream().mapToDouble(ParChange::before).sum();
    double after = cases.stream().mapToDouble(ParChange::after).sum();
    double ratio = after / before;
    double percent = 100 * (1 - ratio);
    double n = cases.size();
    if (n < 2) {
      return new Estimate(percent, tooFew());
    }
    double squares =
        cases.stream()
            .mapToDouble(each -> each.after() - ratio * each.before())
            .map(residual -> residual * residual)
            .sum();
    double error = 100 * Math.sqrt(n * squares / (n - 1)) / before;
    return new Estimate(percent, Reckoned.known(Interval.normal(percent, error, level)));
  }

  private static Reckoned<Interval> tooFew() {
    return Reckoned.lacking("an interval needs two cases");
  }

  /** A value in per cent with its interval. */
  public record Estimate(double percent, Reckoned<Interval> interval) {}
}
