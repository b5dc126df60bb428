package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.stat.regression.OLSMultipleLinearRegression;
import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.agreement.Reliability;
import org.junit.jupiter.api.Test;

/**
 * Intraclass correlation, Psychol Bull 1979;86:420-428: six targets by four judges. ICC(2,1) is
 * printed as 0.29 (0.290), mean squares 11.24, 32.49, 1.02; tolerance half of the last printed
 * digit. The limits .019 and .761 are from memory of other programs' output for the same table.
 */
class PsycholBull1979ReliabilityTest {

  private static final double[][] TABLE = {
    {9, 2, 5, 8}, {6, 1, 3, 2}, {8, 4, 6, 8}, {7, 1, 2, 6}, {10, 5, 6, 9}, {6, 2, 4, 7}
  };
  private static final Reliability FOUND = Reliability.of(TABLE).result().orElseThrow();

  @Test
  void sixTargetsByFourJudges() {
    assertThat(FOUND.single().result().orElseThrow()).isCloseTo(0.290, within(0.0005));
    assertThat(FOUND.subjectSquare()).isCloseTo(11.24, within(0.005));
    assertThat(FOUND.judgeSquare()).isCloseTo(32.49, within(0.005));
    assertThat(FOUND.errorSquare()).isCloseTo(1.02, within(0.005));
  }

  @Test
  void interval() {
    Interval interval = FOUND.interval(0.95).result().orElseThrow();
    assertThat(interval.low()).isCloseTo(0.019, within(0.0005));
    assertThat(interval.high()).isCloseTo(0.761, within(0.0005));
  }

  /** The residual of a least-squares fit of both main effects is the same mean square. */
  @Test
  void theErrorIsTheResidualOfALibrarysFit() {
    double[] y = new double[24];
    double[][] x = new double[24][8];
    for (int i = 0; i < 6; i++) {
      for (int j = 0; j < 4; j++) {
        y[4 * i + j] = TABLE[i][j];
        if (i > 0) {
          x[4 * i + j][i - 1] = 1;
        }
        if (j > 0) {
          x[4 * i + j][4 + j] = 1;
        }
      }
    }
    OLSMultipleLinearRegression fit = new OLSMultipleLinearRegression();
    fit.newSampleData(y, x);
    assertThat(FOUND.errorSquare()).isCloseTo(fit.estimateErrorVariance(), within(1e-12));
  }

  @Test
  void readingsThatDoNotDifferHaveNoCorrelation() {
    Reliability same = Reliability.of(new double[][] {{3, 3}, {3, 3}}).result().orElseThrow();
    assertThat(same.single().result()).isEmpty();
    assertThat(same.interval(0.95).result()).isEmpty();
    assertThat(Reliability.of(new double[][] {{3, 3}}).reason()).contains("two subjects");
    Reliability agreed = Reliability.of(new double[][] {{1, 1}, {3, 3}}).result().orElseThrow();
    assertThat(agreed.single().result()).contains(1.0);
    assertThat(agreed.interval(0.95).reason()).contains("no error");
  }
}
