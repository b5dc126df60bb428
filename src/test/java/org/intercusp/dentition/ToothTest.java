package org.intercusp.dentition;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Teeth in the two-digit notation of ISO 3950:2016, quadrants clockwise from the patient's upper
 * right; ages of shedding from memory of J Am Dent Assoc 2005;136:1619.
 */
class ToothTest {

  @ParameterizedTest
  @CsvSource({
    "18, UPPER, RIGHT, 8, false, 28",
    "21, UPPER, LEFT, 1, false, 11",
    "36, LOWER, LEFT, 6, false, 46",
    "44, LOWER, RIGHT, 4, false, 34",
    "55, UPPER, RIGHT, 5, true, 65",
    "61, UPPER, LEFT, 1, true, 51",
    "73, LOWER, LEFT, 3, true, 83",
    "84, LOWER, RIGHT, 4, true, 74"
  })
  void aCodeSaysWhereAToothStands(
      String code, Arch arch, Side side, int position, boolean deciduous, String mirrored) {
    Tooth tooth = new Tooth(code);
    assertThat(tooth.arch()).isEqualTo(arch);
    assertThat(tooth.side()).isEqualTo(side);
    assertThat(tooth.position()).isEqualTo(position);
    assertThat(tooth.deciduous()).isEqualTo(deciduous);
    assertThat(tooth.mirrored()).isEqualTo(new Tooth(mirrored));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "1", "10", "19", "01", "56", "86", "91", "111", "1a", "UR1", " 11"})
  void anythingElseIsNoTooth(String code) {
    assertThat(Tooth.isCode(code)).isFalse();
    assertThatThrownBy(() -> new Tooth(code)).isInstanceOf(IllegalArgumentException.class);
  }

  /** Years: upper, then lower, from the central incisor to the second molar. */
  @ParameterizedTest
  @CsvSource({
    "51, 6, 7", "52, 7, 8", "53, 10, 12", "54, 9, 11", "55, 10, 12",
    "81, 6, 7", "82, 7, 8", "83, 9, 12", "84, 9, 11", "85, 10, 12"
  })
  void aDeciduousToothIsShedAtAnAge(String code, int from, int to) {
    Shedding shed = Shedding.of(new Tooth(code));
    assertThat(shed.from()).isEqualByComparingTo(Integer.toString(from));
    assertThat(shed.to()).isEqualByComparingTo(Integer.toString(to));
    assertThat(Shedding.of(new Tooth(code).mirrored())).isEqualTo(shed);
  }

  @Test
  void aPermanentToothIsNotShed() {
    assertThatThrownBy(() -> Shedding.of(new Tooth("13")))
        .isInstanceOf(IllegalArgumentException.class);
  }
}
