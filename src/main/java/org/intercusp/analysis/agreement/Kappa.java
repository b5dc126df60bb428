package org.intercusp.analysis.agreement;

import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Source;

/**
 * Agreement of two judges beyond chance over a square table of counts or shares, no unit (Psychol
 * Bull 1968;70:213-220).
 */
public final class Kappa {

  public static final Source SOURCE = Source.published("Psychol Bull 1968;70:213-220");

  private Kappa() {}

  /** Every disagreement weighs the same. */
  public static Reckoned<Double> unweighted(double[][] table) {
    return weighted(table, disagreement(table.length, Weights.EQUAL));
  }

  /** Disagreements weigh by how far apart the categories stand. */
  public static Reckoned<Double> weighted(double[][] table, Weights weights) {
    return weighted(table, disagreement(table.length, weights));
  }

  /**
   * {@code 1 - sum(v observed) / sum(v expected)}.
   *
   * @param table counts or shares, rows one judge and columns the other, not negative
   * @param v weights of disagreement, 0 on the diagonal
   */
  public static Reckoned<Double> weighted(double[][] table, double[][] v) {
    int k = table.length;
    double[] rows = new double[k];
    double[] columns = new double[k];
    double total = 0;
    for (int i = 0; i < k; i++) {
      for (int j = 0; j < k; j++) {
        requireCount(table[i][j]);
        rows[i] += table[i][j];
        columns[j] += table[i][j];
        total += table[i][j];
      }
    }
    if (total == 0) {
      return Reckoned.lacking("nothing was judged");
    }
    double observed = 0;
    double expected = 0;
    for (int i = 0; i < k; i++) {
      for (int j = 0; j < k; j++) {
        observed += v[i][j] * table[i][j] / total;
        expected += v[i][j] * (rows[i] / total) * (columns[j] / total);
      }
    }
    return expected > 0
        ? Reckoned.known(1 - observed / expected)
        : Reckoned.lacking(
            "both judges used one category alone, so chance cannot be told from skill");
  }

  private static void requireCount(double count) {
    if (!(count >= 0) || Double.isInfinite(count)) {
      throw new IllegalArgumentException("a count is finite and not negative");
    }
  }

  private static double[][] disagreement(int categories, Weights weights) {
    double[][] v = new double[categories][categories];
    for (int i = 0; i < categories; i++) {
      for (int j = 0; j < categories; j++) {
        int apart = Math.abs(i - j);
        v[i][j] =
            switch (weights) {
              case EQUAL -> apart == 0 ? 0 : 1;
              case LINEAR -> apart;
              case QUADRATIC -> (double) apart * apart;
            };
      }
    }
    return v;
  }

  /** How a disagreement weighs by the distance of its categories. */
  public enum Weights {
    EQUAL,
    LINEAR,
    QUADRATIC
  }
}
