package org.intercusp.analysis.cohort;

import java.util.Arrays;
import org.hipparchus.exception.MathRuntimeException;
import org.hipparchus.stat.regression.OLSMultipleLinearRegression;
import org.intercusp.analysis.Reckoned;

/**
 * Maximum-likelihood logistic regression by iteratively reweighted least squares, each step solved
 * by the library's least squares (QR). Coefficients are log odds, the intercept first. Where the
 * data are separated or columns depend on each other there is no fit.
 */
final class LogisticFit {

  private static final int STEPS = 50;

  /** At the first step all cases weigh the same, so a vanishing pivot is a dependence. */
  private static final double DEPENDENT = 1e-7;

  private static final double SETTLED = 1e-10;

  private final double[] coefficients;
  private final double[] errors;

  private LogisticFit(double[] coefficients, double[] errors) {
    this.coefficients = coefficients;
    this.errors = errors;
  }

  /**
   * Fits a row of covariates a case, without the column of the intercept.
   *
   * @param happened 1 or 0 a case
   */
  static Reckoned<LogisticFit> of(double[][] covariates, int[] happened) {
    int[] ones = new int[happened.length];
    Arrays.fill(ones, 1);
    return of(covariates, happened, ones);
  }

  /**
   * Fits a row of covariates a pattern.
   *
   * @param happened 0 to the cases of the pattern
   * @param cases how many cases share it, 1 or more
   */
  static Reckoned<LogisticFit> of(double[][] covariates, int[] happened, int[] cases) {
    int columns = covariates.length == 0 ? 0 : covariates[0].length + 1;
    if (covariates.length <= columns) {
      return Reckoned.lacking("there are too few different cases for the coefficients");
    }
    double[][] x =
        Arrays.stream(covariates).map(LogisticFit::withIntercept).toArray(double[][]::new);
    double[] beta = new double[columns];
    try {
      for (int step = 0; step < STEPS; step++) {
        OLSMultipleLinearRegression solver =
            weighted(x, happened, cases, beta, step == 0 ? DEPENDENT : 0);
        double[] next = solver.estimateRegressionParameters();
        double moved = distance(beta, next);
        beta = next;
        if (moved < SETTLED) {
          return Reckoned.known(new LogisticFit(beta, errors(solver)));
        }
      }
    } catch (MathRuntimeException singular) {
      return Reckoned.lacking("the covariates depend on each other");
    }
    return Reckoned.lacking("the covariates separate the outcomes, so there is no fit");
  }

  private static OLSMultipleLinearRegression weighted(
      double[][] x, int[] happened, int[] cases, double[] beta, double threshold) {
    double[] y = new double[x.length];
    double[][] scaled = new double[x.length][];
    for (int i = 0; i < x.length; i++) {
      double eta = dot(x[i], beta);
      double p = probability(eta);
      double root = Math.sqrt(cases[i] * Math.max(p * (1 - p), 1e-12));
      y[i] = root * eta + (happened[i] - cases[i] * p) / root;
      scaled[i] = Arrays.stream(x[i]).map(each -> each * root).toArray();
    }
    OLSMultipleLinearRegression solver = new OLSMultipleLinearRegression(threshold);
    solver.setNoIntercept(true);
    solver.newSampleData(y, scaled);
    return solver;
  }

  /** The inverse of the information, unscaled: the residual variance of a binomial is 1. */
  private static double[] errors(OLSMultipleLinearRegression solver) {
    double[][] variance = solver.estimateRegressionParametersVariance();
    double[] errors = new double[variance.length];
    Arrays.setAll(errors, i -> Math.sqrt(variance[i][i]));
    return errors;
  }

  double[] coefficients() {
    return coefficients.clone();
  }

  double[] standardErrors() {
    return errors.clone();
  }

  /** Probability that it happens with these covariates. */
  double predict(double[] covariates) {
    return probability(dot(withIntercept(covariates), coefficients));
  }

  static double probability(double logOdds) {
    return 1 / (1 + Math.exp(-logOdds));
  }

  private static double[] withIntercept(double[] row) {
    double[] full = new double[row.length + 1];
    full[0] = 1;
    System.arraycopy(row, 0, full, 1, row.length);
    return full;
  }

  private static double dot(double[] a, double[] b) {
    double sum = 0;
    for (int i = 0; i < a.length; i++) {
      sum += a[i] * b[i];
    }
    return sum;
  }

  private static double distance(double[] a, double[] b) {
    double most = 0;
    for (int i = 0; i < a.length; i++) {
      most = Math.max(most, Math.abs(a[i] - b[i]));
    }
    return most;
  }
}
