package org.intercusp.analysis.commonpractice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.LocalDate;
import org.intercusp.analysis.bite.ConstructionBite;
import org.intercusp.analysis.bite.IntergingivalHeight;
import org.intercusp.analysis.bite.IntergingivalHeight.Band;
import org.intercusp.analysis.bite.OverjetPath;
import org.intercusp.measure.Length;
import org.intercusp.measure.ReadingError;
import org.intercusp.measure.Share;
import org.intercusp.treatment.Bite;
import org.junit.jupiter.api.Test;

/**
 * Common practice, no source: the limit of 70 % of the protrusive path, worked for overjets of 9
 * and 11 mm, the arithmetic of the readings, and the intergingival band. Tolerance: half a unit of
 * the last digit of the worked numbers.
 */
class ConstructionBiteTest {

  private static final Share LIMIT = Share.of("0.70");

  @Test
  void overjetNineFromMinusFourAllowsEdgeToEdge() {
    OverjetPath path = new OverjetPath(Length.of("9"), Length.of("-4"));
    assertThat(path.path()).isEqualTo(Length.of("13"));
    assertThat(path.allowed(LIMIT)).isEqualTo(Length.of("9.1"));
    assertThat(share(path.edgeToEdge().result().orElseThrow())).isCloseTo(0.692, within(0.0005));
    assertThat(path.allowsEdgeToEdge(LIMIT)).isTrue();
  }

  @Test
  void overjetElevenFromMinusOneIsStaged() {
    OverjetPath path = new OverjetPath(Length.of("11"), Length.of("-1"));
    assertThat(path.path()).isEqualTo(Length.of("12"));
    assertThat(path.allowed(LIMIT)).isEqualTo(Length.of("8.4"));
    assertThat(share(path.edgeToEdge().result().orElseThrow())).isCloseTo(0.917, within(0.0005));
    assertThat(path.allowsEdgeToEdge(LIMIT)).isFalse();
  }

  @Test
  void edgeToEdgeOnTheLimitIsAllowed() {
    OverjetPath path = new OverjetPath(Length.of("9.10"), Length.of("-3.9"));
    assertThat(path.allowed(LIMIT)).isEqualTo(Length.of("9.1"));
    assertThat(path.allowsEdgeToEdge(LIMIT)).isTrue();
    assertThat(new OverjetPath(Length.of("9.11"), Length.of("-3.9")).allowsEdgeToEdge(LIMIT))
        .isFalse();
  }

  @Test
  void noPathFromOverjetsThatDoNotShrink() {
    OverjetPath path = new OverjetPath(Length.of("3"), Length.of("3"));
    assertThat(path.edgeToEdge().result()).isEmpty();
    assertThat(path.edgeToEdge().reason()).contains("overjet");
    assertThat(path.allowsEdgeToEdge(LIMIT)).isFalse();
  }

  @Test
  void nineOfThirteenHasAnUncertaintyOfNearlyThreePerCent() {
    ConstructionBite bite = bite("0", "0", "9", "13");
    assertThat(bite.shareUncertainty().result().orElseThrow()).isCloseTo(0.028, within(0.0005));
    assertThat(bite.usesMoreThan(LIMIT)).isFalse();
  }

  /** u is 0.5 / sqrt 3; two readings make u sqrt 2, three u sqrt 3 (a half), four 2 u. */
  @Test
  void uncertaintiesGrowWithTheReadingsThatAResultRestsOn() {
    ConstructionBite bite = bite("0", "0", "9", "13");
    assertThat(bite.differenceUncertainty()).isCloseTo(0.408248, within(1e-6));
    assertThat(bite.unexplainedUncertainty()).isCloseTo(0.577350, within(1e-6));
    assertThat(IntergingivalHeight.uncertainty(ReadingError.RULER)).isCloseTo(0.5, within(1e-9));
  }

  @Test
  void theLimitItselfIsAllowedHoweverItIsWritten() {
    assertThat(bite("0", "0", "9.1", "13").usesMoreThan(LIMIT)).isFalse();
    assertThat(bite("0", "0", "9.10", "13.0").usesMoreThan(LIMIT)).isFalse();
    assertThat(bite("0", "0", "9.11", "13").usesMoreThan(LIMIT)).isTrue();
  }

  @Test
  void pathAndActivationStartAtTheRetrudedReading() {
    ConstructionBite bite = bite("-1", "1", "8", "12");
    assertThat(bite.path()).isEqualTo(Length.of("13"));
    assertThat(bite.activation()).isEqualTo(Length.of("9"));
    assertThat(bite.slide().result()).contains(Length.of("2"));
    assertThat(bite.slideAssumed()).isFalse();
    assertThat(bite.explainedOverjet()).isEqualTo(Length.of("2"));
    assertThat(bite.unexplained()).isEqualTo(Length.of("-2"));
  }

  @Test
  void withoutARetrudedReadingTheSlideIsAssumedAndNotReported() {
    ConstructionBite bite = bite(null, "1", "8", "12");
    assertThat(bite.path()).isEqualTo(Length.of("11"));
    assertThat(bite.activation()).isEqualTo(Length.of("7"));
    assertThat(bite.slideAssumed()).isTrue();
    assertThat(bite.slide().reason()).contains("retrudedReading");
    assertThat(bite.slideTaken()).isEqualTo(Length.ZERO);
  }

  @Test
  void aPathOfNothingHasNoShare() {
    ConstructionBite bite = bite("5", "5", "5", "5");
    assertThat(bite.share().result()).isEmpty();
    assertThat(bite.share().reason()).contains("maximumReading");
    assertThat(bite.usesMoreThan(LIMIT)).isFalse();
    ConstructionBite beyond = bite("5", "5", "6", "5");
    assertThat(beyond.share().result()).isEmpty();
    assertThat(beyond.usesMoreThan(LIMIT)).as("registered beyond the maximum").isFalse();
  }

  @Test
  void theHeightIsCrownsLessOverbiteOrPlusClearance() {
    IntergingivalHeight height =
        IntergingivalHeight.of(Length.of("20"), Length.of("4"), Length.of("2"));
    assertThat(height.inOcclusion()).isEqualTo(Length.of("16"));
    assertThat(height.inBite()).isEqualTo(Length.of("22"));
    Band child = new Band(Length.of("15"), Length.of("17"));
    assertThat(child.holds(height.inOcclusion())).isTrue();
    assertThat(child.excess(height.inBite())).isEqualTo(Length.of("5"));
    assertThat(child.holds(Length.of("17.0"))).isTrue();
    assertThat(child.holds(Length.of("17.1"))).isFalse();
    assertThat(child.holds(Length.of("15.0"))).isTrue();
    assertThat(child.holds(Length.of("14.9"))).isFalse();
    assertThat(child.excess(Length.of("14.9"))).isEqualTo(Length.ZERO);
  }

  private static double share(Share share) {
    return share.asDouble();
  }

  private static ConstructionBite bite(
      String retruded, String habitual, String registered, String maximum) {
    Length zero = Length.ZERO;
    Bite bite =
        new Bite(
            "B",
            LocalDate.of(2026, 1, 1),
            Length.of("9"),
            zero,
            zero,
            retruded == null ? null : Length.of(retruded),
            Length.of(habitual),
            Length.of(registered),
            Length.of(maximum),
            zero,
            null,
            null,
            null,
            Length.of("10"),
            Length.of("8"),
            null,
            null,
            null,
            null);
    return ConstructionBite.of(bite, ReadingError.RULER);
  }
}
