package org.intercusp.analysis.commonpractice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.intercusp.analysis.block.BlockGeometry;
import org.intercusp.analysis.block.BlockGeometry.Gaps;
import org.intercusp.analysis.block.Incline;
import org.intercusp.analysis.block.JawShape;
import org.intercusp.measure.Angle;
import org.intercusp.measure.Length;
import org.junit.jupiter.api.Test;

/**
 * Common practice, no source: the shape of the jaw assumed for block heights, worked for a child
 * with overjet 9 to 0, overbite 4 and clearance 2; and plain geometry of inclines at 45, 70 and 90
 * degrees. Tolerance: half a unit of the last digit of the worked numbers.
 */
class BlockGeometryTest {

  /** Common practice, no source. */
  private static final JawShape CHILD = new JawShape(88, 26, 20, 14, 22, 31);

  private static final BlockGeometry WORKED = predict("9", "0", "4", "2");

  @Test
  void theWorkedChildTurnsAndSlides() {
    assertThat(WORKED.turn()).isCloseTo(1.939, within(0.0005));
    assertThat(WORKED.slide()).isCloseTo(10.822, within(0.0005));
  }

  @Test
  void theWorkedChildHasTheseGaps() {
    Gaps gaps = WORKED.gaps();
    assertThat(gaps.incisors()).isEqualTo(Length.of("2.00"));
    assertThat(gaps.firstPremolar()).isEqualTo(Length.of("5.53"));
    assertThat(gaps.secondPremolar()).isEqualTo(Length.of("5.26"));
    assertThat(gaps.molar()).isEqualTo(Length.of("4.95"));
  }

  /**
   * The same child bitten to an overjet of 2, and from 4 beyond edge to edge to -1: reckoned apart
   * from the formula of the dictionary. A tooth lies that much nearer to, or farther from, the
   * lower incisal edge.
   */
  @Test
  void theOverjetInTheBiteMovesTheTeeth() {
    Gaps behind = predict("9", "2", "4", "2").gaps();
    assertThat(behind.firstPremolar()).isEqualTo(Length.of("5.48"));
    assertThat(behind.secondPremolar()).isEqualTo(Length.of("5.14"));
    assertThat(behind.molar()).isEqualTo(Length.of("4.75"));
    Gaps beyond = predict("4", "-1", "4", "2").gaps();
    assertThat(beyond.firstPremolar()).isEqualTo(Length.of("5.22"));
    assertThat(beyond.secondPremolar()).isEqualTo(Length.of("4.80"));
    assertThat(beyond.molar()).isEqualTo(Length.of("4.33"));
  }

  @Test
  void theCondylarPathSpreadsThem() {
    assertThat(WORKED.flatter().firstPremolar()).isEqualTo(Length.of("5.16"));
    assertThat(WORKED.steeper().firstPremolar()).isEqualTo(Length.of("5.87"));
    assertThat(WORKED.flatter().molar()).isEqualTo(Length.of("4.14"));
    assertThat(WORKED.steeper().molar()).isEqualTo(Length.of("5.72"));
  }

  @Test
  void withoutMovementThereIsNoTurn() {
    BlockGeometry still = predict("3", "3", "0", "0");
    assertThat(still.turn()).isCloseTo(0, within(1e-9));
    assertThat(still.slide()).isCloseTo(0, within(1e-9));
    assertThat(still.gaps().molar()).isEqualTo(Length.ZERO);
  }

  @Test
  void gapsScaleWithTheJaw() {
    JawShape twice = new JawShape(176, 26, 20, 28, 44, 62);
    Gaps gaps =
        BlockGeometry.predict(twice, Length.of("18"), Length.ZERO, Length.of("8"), Length.of("4"))
            .result()
            .orElseThrow()
            .gaps();
    assertThat(gaps.firstPremolar().asDouble())
        .isCloseTo(2 * WORKED.gaps().firstPremolar().asDouble(), within(0.02));
    assertThat(gaps.molar().asDouble())
        .isCloseTo(2 * WORKED.gaps().molar().asDouble(), within(0.02));
  }

  @Test
  void anOpeningThatNoTurnReachesIsLacking() {
    assertThat(
            BlockGeometry.predict(CHILD, Length.ZERO, Length.ZERO, Length.ZERO, Length.of("90"))
                .reason())
        .contains("no turn");
  }

  @Test
  void inclinesAtFortyFiveSeventyAndNinety() {
    check("45", 0.7071, 0.7071, 1.000);
    check("70", 0.9397, 0.3420, 2.7475);
    Incline upright = new Incline(Angle.of("90.0"));
    assertThat(upright.forward()).isEqualTo(1);
    assertThat(upright.vertical()).isZero();
    assertThat(upright.ratio().reason()).contains("upright");
  }

  private static void check(String degrees, double forward, double vertical, double ratio) {
    Incline incline = new Incline(Angle.of(degrees));
    assertThat(incline.forward()).isCloseTo(forward, within(0.00005));
    assertThat(incline.vertical()).isCloseTo(vertical, within(0.00005));
    assertThat(incline.ratio().result().orElseThrow()).isCloseTo(ratio, within(0.00005));
  }

  private static BlockGeometry predict(
      String overjet, String inBite, String overbite, String clearance) {
    return BlockGeometry.predict(
            CHILD, Length.of(overjet), Length.of(inBite), Length.of(overbite), Length.of(clearance))
        .result()
        .orElseThrow();
  }
}
