package org.intercusp.analysis.cohort;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.ArrayList;
import java.util.List;
import org.hipparchus.stat.inference.MannWhitneyUTest;
import org.intercusp.analysis.cohort.Prediction.Foretold;
import org.junit.jupiter.api.Test;

/**
 * Sixty invented cases. Coefficients, errors, c and Brier were computed once with another library,
 * statsmodels 0.15.0; tolerance half of the last digit it printed.
 */
class LogisticFitTest {

  private static final double[][] X = new double[60][];
  private static final int[] Y = new int[60];

  static {
    for (int i = 0; i < 60; i++) {
      X[i] = new double[] {(i * 7 % 23) / 4.0, i % 3 == 0 ? 1 : 0};
      Y[i] = (i * i * 13 + 5 * i) % 17 < 8 ? 1 : 0;
    }
  }

  private static final LogisticFit FIT = LogisticFit.of(X, Y).result().orElseThrow();

  @Test
  void coefficientsAndErrorsAreThoseOfAnotherLibrary() {
    assertThat(FIT.coefficients())
        .containsExactly(new double[] {0.33334628, -0.166368, 0.16826696}, within(5e-9));
    assertThat(FIT.standardErrors())
        .containsExactly(new double[] {0.51811972, 0.15738715, 0.55713924}, within(5e-8));
  }

  @Test
  void concordanceAndBrierAreThoseOfAnotherLibrary() {
    Prediction prediction = prediction();
    assertThat(prediction.concordance().result().orElseThrow())
        .isCloseTo(0.5800889877641824, within(1e-12));
    assertThat(prediction.brier().result().orElseThrow())
        .isCloseTo(0.24484790313087104, within(1e-9));
  }

  @Test
  void concordanceIsARankStatistic() {
    double[] with =
        prediction().cases().stream()
            .filter(c -> c.happened() == 1)
            .mapToDouble(Foretold::probability)
            .toArray();
    double[] without =
        prediction().cases().stream()
            .filter(c -> c.happened() == 0)
            .mapToDouble(Foretold::probability)
            .toArray();
    double u = new MannWhitneyUTest().mannWhitneyU(with, without);
    double c = prediction().concordance().result().orElseThrow();
    assertThat(Math.max(c, 1 - c))
        .isCloseTo(
            Math.max(u, with.length * without.length - u) / with.length / without.length,
            within(1e-12));
  }

  @Test
  void aFitIsCalibratedOnItsOwnCasesAndNotWhenMadeTooExtreme() {
    assertThat(prediction().calibrationSlope().result().orElseThrow()).isCloseTo(1, within(1e-8));
    List<Foretold> extreme = new ArrayList<>();
    for (Foretold each : prediction().cases()) {
      double odds = Math.pow(each.probability() / (1 - each.probability()), 2);
      extreme.add(new Foretold(odds / (1 + odds), each.happened()));
    }
    assertThat(new Prediction(extreme).calibrationSlope().result().orElseThrow())
        .isCloseTo(0.5, within(1e-8));
  }

  @Test
  void expectedEqualsObservedOverAllCases() {
    double expected = prediction().cases().stream().mapToDouble(Foretold::probability).sum();
    assertThat(expected).isCloseTo(29, within(1e-8));
  }

  @Test
  void separatedOrDependentDataHaveNoFit() {
    int[] separated = new int[60];
    double[][] doubled = new double[60][];
    for (int i = 0; i < 60; i++) {
      separated[i] = X[i][0] > 2 ? 1 : 0;
      doubled[i] = new double[] {X[i][0], 2 * X[i][0]};
    }
    assertThat(LogisticFit.of(X, separated).reason()).contains("separate");
    assertThat(LogisticFit.of(doubled, Y).reason()).contains("depend");
    assertThat(LogisticFit.of(new double[0][], new int[0]).reason())
        .contains("too few different cases");
    assertThat(new Prediction(List.of()).brier().reason()).contains("nothing");
    assertThat(new Prediction(List.of(new Foretold(0.4, 1))).concordance().result()).isEmpty();
  }

  private static Prediction prediction() {
    List<Foretold> cases = new ArrayList<>();
    for (int i = 0; i < Y.length; i++) {
      cases.add(new Foretold(FIT.predict(X[i]), Y[i]));
    }
    return new Prediction(cases);
  }
}
