package org.intercusp.analysis.agreement;

import java.util.Arrays;
import org.hipparchus.distribution.continuous.FDistribution;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Source;

/**
 * Two-way table of subjects by judges and its intraclass correlation ICC(2,1): one judge drawn at
 * random, absolute agreement, no unit (Psychol Bull 1979;86:420-428).
 *
 * @param subjects two or more
 * @param judges two or more
 * @param subjectSquare mean square between subjects
 * @param judgeSquare mean square between judges
 * @param errorSquare residual mean square
 */
public record Reliability(
    int subjects, int judges, double subjectSquare, double judgeSquare, double errorSquare) {

  public static final Source SOURCE = Source.published("Psychol Bull 1979;86:420-428");

  private static final double NOISE = 1e-20;

  /** Fewer degrees of freedom than this have quantiles that no longer mean anything. */
  private static final double LEAST_FREEDOM = 0.1;

  /** Mean squares of a full table, one row a subject. */
  public static Reckoned<Reliability> of(double[][] table) {
    if (table.length < 2 || table[0].length < 2) {
      return Reckoned.lacking("two subjects and two judges are needed");
    }
    int n = table.length;
    int k = table[0].length;
    requireFull(table, k);
    double mean = 0;
    double[] rows = new double[n];
    double[] columns = new double[k];
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < k; j++) {
        rows[i] += table[i][j] / k;
        columns[j] += table[i][j] / n;
        mean += table[i][j] / n / k;
      }
    }
    double error = 0;
    for (int i = 0; i < n; i++) {
      for (int j = 0; j < k; j++) {
        double residual = table[i][j] - rows[i] - columns[j] + mean;
        error += residual * residual;
      }
    }
    double spread = k * squares(rows, mean) + n * squares(columns, mean);
    // What binary rounding leaves of judges who agree exactly is no error.
    error = error > NOISE * spread ? error : 0;
    return Reckoned.known(
        new Reliability(
            n,
            k,
            k * squares(rows, mean) / (n - 1),
            n * squares(columns, mean) / (k - 1),
            error / (n - 1) / (k - 1)));
  }

  private static void requireFull(double[][] table, int judges) {
    for (double[] row : table) {
      if (row.length != judges || !Arrays.stream(row).allMatch(Double::isFinite)) {
        throw new IllegalArgumentException("every judge has a finite reading of every subject");
      }
    }
  }

  private static double squares(double[] means, double mean) {
    double sum = 0;
    for (double each : means) {
      sum += (each - mean) * (each - mean);
    }
    return sum;
  }

  /** ICC(2,1); none when no reading differs from another. */
  public Reckoned<Double> single() {
    double below =
        subjectSquare
            + (judges - 1) * errorSquare
            + judges * (judgeSquare - errorSquare) / subjects;
    return below > 0
        ? Reckoned.known((subjectSquare - errorSquare) / below)
        : Reckoned.lacking("the readings do not differ, so there is nothing to correlate");
  }

  /** Interval of ICC(2,1) by the paper's approximation; none where judges agree exactly. */
  public Reckoned<Interval> interval(double level) {
    if (!(errorSquare > 0)) {
      return Reckoned.lacking("the judges leave no error to judge the interval by");
    }
    return single().flatMap(rho -> between(rho, level));
  }

  private double freedom(double rho) {
    double n = subjects;
    double k = judges;
    double f = judgeSquare / errorSquare;
    double part = k * rho * f;
    double rest = n * (1 + (k - 1) * rho) - k * rho;
    return (k - 1)
        * (n - 1)
        * (part + rest)
        * (part + rest)
        / ((n - 1) * part * part + rest * rest);
  }

  private Reckoned<Interval> between(double rho, double level) {
    double freedom = freedom(rho);
    if (!(freedom >= LEAST_FREEDOM)) {
      return Reckoned.lacking("too few degrees of freedom for an interval");
    }
    double n = subjects;
    double k = judges;
    double tail = (1 + level) / 2;
    double high = new FDistribution(n - 1, freedom).inverseCumulativeProbability(tail);
    double low = new FDistribution(freedom, n - 1).inverseCumulativeProbability(tail);
    double mix = k * judgeSquare + (k * n - k - n) * errorSquare;
    double lower = n * (subjectSquare - high * errorSquare) / (high * mix + n * subjectSquare);
    double upper = n * (low * subjectSquare - errorSquare) / (mix + n * low * subjectSquare);
    return lower <= upper
        ? Reckoned.known(new Interval(lower, upper, level))
        : Reckoned.lacking("the approximation gives no interval for this table");
  }
}
