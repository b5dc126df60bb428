package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.intercusp.analysis.agreement.Kappa;
import org.intercusp.analysis.agreement.Kappa.Weights;
import org.junit.jupiter.api.Test;

/**
 * Weighted agreement beyond chance, Psychol Bull 1968;70:213-220: 200 patients in three diagnoses
 * by two judges, kappa 0.492, weighted 0.348. The table and the paper's weights of disagreement are
 * from memory; they give back both printed values, to half of their last digit.
 */
class PsycholBull1968KappaTest {

  private static final double[][] PATIENTS = {{88, 14, 18}, {10, 40, 10}, {2, 6, 12}};
  private static final double[][] DISAGREEMENT = {{0, 1, 3}, {1, 0, 6}, {3, 6, 0}};

  @Test
  void thePapersTable() {
    assertThat(Kappa.unweighted(PATIENTS).result().orElseThrow()).isCloseTo(0.492, within(0.0005));
    assertThat(Kappa.weighted(PATIENTS, DISAGREEMENT).result().orElseThrow())
        .isCloseTo(0.348, within(0.0005));
  }

  /** Computed once with another library, statsmodels 0.15.0; to the last digits it printed. */
  @Test
  void regularWeightsAsAnotherLibraryComputesThem() {
    assertThat(Kappa.weighted(PATIENTS, Weights.EQUAL).result().orElseThrow())
        .isCloseTo(0.49152542372881347, within(1e-14));
    assertThat(Kappa.weighted(PATIENTS, Weights.LINEAR).result().orElseThrow())
        .isCloseTo(0.4736842105263158, within(1e-14));
    assertThat(Kappa.weighted(PATIENTS, Weights.QUADRATIC).result().orElseThrow())
        .isCloseTo(0.4545454545454546, within(1e-14));
  }

  @Test
  void sharesGiveTheSameAsCountsAndTheJudgesMayChangePlaces() {
    double[][] shares = new double[3][3];
    double[][] turned = new double[3][3];
    for (int i = 0; i < 3; i++) {
      for (int j = 0; j < 3; j++) {
        shares[i][j] = PATIENTS[i][j] / 200;
        turned[j][i] = PATIENTS[i][j];
      }
    }
    double kappa = Kappa.weighted(PATIENTS, Weights.LINEAR).result().orElseThrow();
    assertThat(Kappa.weighted(shares, Weights.LINEAR).result().orElseThrow())
        .isCloseTo(kappa, within(1e-12));
    assertThat(Kappa.weighted(turned, Weights.LINEAR).result().orElseThrow())
        .isCloseTo(kappa, within(1e-12));
  }

  @Test
  void nothingJudgedOrOneCategoryAloneIsAReason() {
    assertThat(Kappa.unweighted(new double[3][3]).reason()).contains("nothing was judged");
    assertThat(Kappa.unweighted(new double[][] {{7, 0}, {0, 0}}).reason()).contains("one category");
  }
}
