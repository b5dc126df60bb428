package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.stat.inference.TTest;
import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.agreement.Pairs;
import org.intercusp.analysis.agreement.Pairs.LimitsOfAgreement;
import org.junit.jupiter.api.Test;

/**
 * Limits of agreement, Lancet 1986;i:307-310: peak flow of 17 subjects read twice with each of two
 * meters. The readings are from memory; they give back what the paper prints (bias -2.1, deviation
 * 38.8, limits -79.7 and 75.5, bias interval -22.1 to 17.8, interval of the lower limit -114.3 to
 * -45.1). Tolerance 0.1 to 0.3 l/min: the paper goes on with rounded values and 2 for 1.96.
 */
class Lancet1986AgreementTest {

  private static final double[] LARGE_FIRST = {
    494, 395, 516, 434, 476, 557, 413, 442, 650, 433, 417, 656, 267, 478, 178, 423, 427
  };
  private static final double[] LARGE_SECOND = {
    490, 397, 512, 401, 470, 611, 415, 431, 638, 429, 420, 633, 275, 492, 165, 372, 421
  };
  private static final double[] MINI_FIRST = {
    512, 430, 520, 428, 500, 600, 364, 380, 658, 445, 432, 626, 260, 477, 259, 350, 451
  };
  private static final double[] MINI_SECOND = {
    525, 415, 508, 444, 500, 625, 460, 390, 642, 432, 420, 605, 227, 467, 268, 370, 443
  };

  private static final LimitsOfAgreement METERS =
      Pairs.of(LARGE_FIRST, MINI_FIRST).limitsOfAgreement().result().orElseThrow();

  @Test
  void biasAndLimits() {
    assertThat(METERS.subjects()).isEqualTo(17);
    assertThat(METERS.bias()).isCloseTo(-2.1, within(0.05));
    assertThat(METERS.deviation()).isCloseTo(38.8, within(0.05));
    assertThat(METERS.lower(2)).isCloseTo(-79.7, within(0.1));
    assertThat(METERS.upper(2)).isCloseTo(75.5, within(0.1));
    assertThat(METERS.upper(LimitsOfAgreement.USUAL)).isLessThan(METERS.upper(2));
  }

  @Test
  void intervals() {
    Interval bias = METERS.biasInterval(0.95);
    assertThat(bias.low()).isCloseTo(-22.1, within(0.1));
    assertThat(bias.high()).isCloseTo(17.8, within(0.1));
    Interval lower = METERS.limitInterval(METERS.lower(2), 0.95);
    assertThat(lower.low()).isCloseTo(-114.3, within(0.3));
    assertThat(lower.high()).isCloseTo(-45.1, within(0.3));
    Interval upper = METERS.limitInterval(METERS.upper(2), 0.95);
    assertThat(upper.low()).isCloseTo(40.9, within(0.3));
    assertThat(upper.high()).isCloseTo(110.1, within(0.3));
  }

  @Test
  void theBiasIntervalIsThatOfAPairedTest() {
    double p = new TTest().pairedTTest(LARGE_FIRST, MINI_FIRST);
    Interval touching = METERS.biasInterval(1 - p);
    assertThat(touching.high()).isCloseTo(0, within(1e-8));
  }

  /** Printed coefficients of repeatability 43.2 and 56.4, twice the rounded 21.6 and 28.2. */
  @Test
  void repeatabilityIsTwiceRootTwoMethodErrors() {
    assertThat(2 * Math.sqrt(2) * methodError(LARGE_FIRST, LARGE_SECOND))
        .isCloseTo(43.2, within(0.15));
    assertThat(2 * Math.sqrt(2) * methodError(MINI_FIRST, MINI_SECOND))
        .isCloseTo(56.4, within(0.15));
  }

  private static double methodError(double[] first, double[] second) {
    return Pairs.of(first, second).methodError().result().orElseThrow();
  }
}
