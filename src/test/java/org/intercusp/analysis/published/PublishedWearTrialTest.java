package org.intercusp.analysis.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.analysis.progress.Expected;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.junit.jupiter.api.Test;

/**
 * Am J Orthod Dentofacial Orthop 2019;155:165-172: overjet reduced in twelve months by 7.0 (SD
 * 2.92) mm at 12 h a day prescribed and 6.5 (SD 2.62) mm at 22 h; that is 0.58 and 0.54 mm a month.
 * Tolerance: half a unit of the last digit, the rates being printed to two decimals.
 */
class PublishedWearTrialTest {

  @Test
  void ratesAreTheReductionOfTwelveMonths() {
    for (Expected group : Expected.values()) {
      assertThat(group.inTwelveMonths().asDouble() / 12)
          .isCloseTo(group.rate().doubleValue(), within(0.005));
    }
    assertThat(Expected.PART_TIME.inTwelveMonths()).isEqualTo(Length.of("7.0"));
    assertThat(Expected.PART_TIME.deviation()).isEqualTo(Length.of("2.92"));
    assertThat(Expected.FULL_TIME.inTwelveMonths()).isEqualTo(Length.of("6.5"));
    assertThat(Expected.FULL_TIME.deviation()).isEqualTo(Length.of("2.62"));
  }

  @Test
  void aYearOfFullTimeWearTakesNineToAboutTwoAndAHalf() {
    LocalDate fitted = LocalDate.of(2026, 1, 1);
    Length after = Expected.FULL_TIME.overjet(Length.of("9"), fitted, fitted.plusYears(1));
    assertThat(after).isEqualTo(Length.of("2.5"));
    assertThat(Expected.FULL_TIME.overjet(Length.of("9"), fitted, fitted))
        .isEqualTo(Length.of("9"));
    assertThat(Expected.FULL_TIME.overjet(Length.of("9"), fitted, fitted.plusYears(9)))
        .isEqualTo(Length.ZERO);
  }

  @Test
  void aReverseOverjetIsExpectedToStay() {
    LocalDate fitted = LocalDate.of(2026, 1, 1);
    for (LocalDate on : List.of(fitted.minusDays(9), fitted, fitted.plusYears(1))) {
      assertThat(Expected.FULL_TIME.overjet(Length.of("-1"), fitted, on))
          .isEqualTo(Length.of("-1"));
      assertThat(Expected.FULL_TIME.overjet(Length.of("9"), fitted, on).isAbove(Length.of("9")))
          .isFalse();
    }
  }

  @Test
  void theNearerGroupIsTaken() {
    assertThat(Expected.at(HoursPerDay.of("12"))).isEqualTo(Expected.PART_TIME);
    assertThat(Expected.at(HoursPerDay.of("22"))).isEqualTo(Expected.FULL_TIME);
    assertThat(Expected.at(HoursPerDay.of("17.0"))).isEqualTo(Expected.FULL_TIME);
  }
}
