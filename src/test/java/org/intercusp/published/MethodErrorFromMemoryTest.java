package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.intercusp.analysis.agreement.Pairs;
import org.junit.jupiter.api.Test;

/**
 * Method error of double tracings, sqrt(sum d^2 / 2n), from memory of Statistical Methods for
 * Medical and Biological Students, London 1940. An example by hand, exact to rounding of binary
 * numbers.
 */
class MethodErrorFromMemoryTest {

  @Test
  void byHand() {
    double[] first = {82, 78.5, 81, 79.5};
    double[] second = {81, 79.5, 80, 80.5};
    assertThat(Pairs.of(first, second).methodError().result().orElseThrow())
        .isCloseTo(Math.sqrt(0.5), within(1e-12));
    assertThat(Pairs.of(second, first).methodError())
        .isEqualTo(Pairs.of(first, second).methodError());
  }

  @Test
  void nothingReadTwiceIsAReason() {
    assertThat(Pairs.of(new double[0], new double[0]).methodError().reason())
        .contains("no subject");
    assertThat(Pairs.of(new double[] {1}, new double[] {2}).limitsOfAgreement().reason())
        .contains("two subjects");
  }
}
