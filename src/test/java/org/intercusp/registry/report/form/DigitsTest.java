package org.intercusp.registry.report.form;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.DoubleStream;
import org.junit.jupiter.api.Test;

/** How a figure's number is written. */
class DigitsTest {

  @Test
  void aSumIsTheSameInWhicheverOrderItIsMade() {
    double[] shares = DoubleStream.iterate(0.1, each -> (each * 7.3) % 1).limit(1000).toArray();
    double forwards = 0;
    double backwards = 0;
    for (int i = 0; i < shares.length; i++) {
      forwards += shares[i];
      backwards += shares[shares.length - 1 - i];
    }
    assertThat(forwards).isNotEqualTo(backwards);
    assertThat(Digits.text(forwards)).isEqualTo(Digits.text(backwards));
  }

  @Test
  void countsAreWholeAndNothingHasAnExponent() {
    assertThat(Digits.text(10_000_000)).isEqualTo("10000000");
    assertThat(Digits.text(0.1 + 0.2)).isEqualTo("0.3");
    assertThat(Digits.text(-0.0)).isEqualTo("0");
    assertThat(Digits.text(1.0 / 3_000_000)).isEqualTo("0.000000333333333333");
  }
}
