package org.intercusp.measure;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** A number with its unit reads as a person says it. */
class UnitTest {

  @ParameterizedTest
  @CsvSource({
    "DAY, 1, 1 day",
    "WEEK, 1, 1 week",
    "MONTH, 1, 1 month",
    "YEAR, 1, 1 year",
    "SCORE, 1, 1 point",
    "DAY, -1, -1 day",
    "MONTH, 0, 0 months",
    "MONTH, 1.0, 1.0 months",
    "YEAR, 11, 11 years",
    "MILLIMETRE, 1, 1 mm",
    "DEGREE, 1, 1°",
    "SHARE, 1, 1"
  })
  void oneIsNotMany(Unit unit, String number, String shown) {
    assertThat(unit.behind(number)).isEqualTo(shown);
  }
}
