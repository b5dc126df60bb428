package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.intercusp.analysis.agreement.Interval;
import org.intercusp.analysis.agreement.Proportion;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Score interval of a share, the examples of Stat Med 1998;17:857-872, from memory of it: four
 * digits printed, tolerance half of the last.
 */
class StatMed1998ScoreIntervalTest {

  @ParameterizedTest
  @CsvSource({
    "81, 263, .2553, .3662",
    "15, 148, .0624, .1605",
    "0, 20, 0, .1611",
    "1, 29, .0061, .1718"
  })
  void examples(int events, int of, double low, double high) {
    Interval interval = new Proportion(events, of).wilson(0.95).result().orElseThrow();
    assertThat(interval.low()).isCloseTo(low, within(0.00005));
    assertThat(interval.high()).isCloseTo(high, within(0.00005));
  }

  @Test
  void noneAndAllMirrorEachOther() {
    Interval none = new Proportion(0, 7).wilson(0.95).result().orElseThrow();
    Interval all = new Proportion(7, 7).wilson(0.95).result().orElseThrow();
    assertThat(none.low()).isZero();
    assertThat(all.high()).isEqualTo(1);
    assertThat(none.high()).isCloseTo(1 - all.low(), within(1e-12));
    assertThat(new Proportion(0, 0).wilson(0.95).reason()).contains("no case");
  }
}
