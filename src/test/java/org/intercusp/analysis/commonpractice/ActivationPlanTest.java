package org.intercusp.analysis.commonpractice;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.plan.ActivationPlan;
import org.intercusp.analysis.plan.ActivationPlan.Start;
import org.intercusp.analysis.plan.ActivationPlan.Step;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.junit.jupiter.api.Test;

/**
 * Common practice, no source: steps of activation, worked for overjet 11 with -1 at maximum.
 * Tolerance: half a unit of the last digit of the worked numbers.
 */
class ActivationPlanTest {

  @Test
  void elevenIsStagedAndTheRestProbablyNotNeeded() {
    ActivationPlan plan = plan("11", "12", "0", true).result().orElseThrow();
    assertThat(plan.allowed()).isEqualTo(Length.of("8.4"));
    assertThat(plan.oneStep()).isFalse();
    assertThat(plan.first()).isEqualTo(Length.of("8.0"));
    assertThat(plan.firstShare().asDouble()).isCloseTo(0.667, within(0.0005));
    assertThat(plan.overjetInBite()).isEqualTo(Length.of("3.0"));
    assertThat(plan.rest()).containsExactly(new Step(Length.of("3"), 8, Length.of("2.33"), true));
  }

  @Test
  void nineGoesForwardInOneStep() {
    ActivationPlan plan = plan("9", "13", "0", true).result().orElseThrow();
    assertThat(plan.oneStep()).isTrue();
    assertThat(plan.first()).isEqualTo(Length.of("9"));
    assertThat(plan.overjetInBite()).isEqualTo(Length.ZERO);
    assertThat(plan.rest()).isEmpty();
  }

  @Test
  void anUncomfortablePositionIsStaged() {
    ActivationPlan plan = plan("9", "13", "0", false).result().orElseThrow();
    assertThat(plan.oneStep()).isFalse();
    assertThat(plan.first()).isEqualTo(Length.of("8"));
    assertThat(plan.rest()).hasSize(1);
    assertThat(plan("9", "13", "0", null).result().orElseThrow().oneStep()).isTrue();
  }

  @Test
  void tenIsTheLastOverjetOfOneStep() {
    assertThat(plan("10", "15", "0", true).result().orElseThrow().oneStep()).isTrue();
    assertThat(plan("10.0", "15", "0", true).result().orElseThrow().oneStep()).isTrue();
    assertThat(plan("10.1", "15", "0", true).result().orElseThrow().oneStep()).isFalse();
  }

  @Test
  void theSlideTakesFromWhatIsAllowed() {
    ActivationPlan plan = plan("9", "13", "1", true).result().orElseThrow();
    assertThat(plan.allowed()).isEqualTo(Length.of("8.1"));
    assertThat(plan.oneStep()).isFalse();
    assertThat(plan.first()).isEqualTo(Length.of("8.0"));
    assertThat(plan.firstShare().asDouble()).isCloseTo(9.0 / 13, within(1e-9));
  }

  @Test
  void whatIsNeededMayBeAllThatIsAllowed() {
    ActivationPlan plan = plan("7", "10", "0", true).result().orElseThrow();
    assertThat(plan.allowed()).isEqualTo(Length.of("7"));
    assertThat(plan.oneStep()).isTrue();
    assertThat(plan("7.01", "10", "0", true).result().orElseThrow().oneStep()).isFalse();
  }

  /**
   * With maximum at -1 and a slide of 1 the path is 13; at an overjet of 1.33 it is 3.33, 70 % of
   * which are 2.33, the overjet and the slide together. With a slide of 0.5 and maximum at -1.5 it
   * opens at 3.0 exactly, an overjet at which the stage may be left.
   */
  @Test
  void theSlideDelaysTheNextStep() {
    assertThat(plan("11", "13", "1", true).result().orElseThrow().rest())
        .containsExactly(new Step(Length.of("3"), 8, Length.of("1.33"), true));
    assertThat(plan("11", "13", "0.5", true).result().orElseThrow().rest())
        .containsExactly(new Step(Length.of("3"), 8, Length.of("3"), true));
    assertThat(plan("11", "13", "0.4", true).result().orElseThrow().rest())
        .containsExactly(new Step(Length.of("3"), 8, Length.of("3.33"), false));
  }

  @Test
  void aLongRestGoesInEqualStepsOfAtMostFour() {
    ActivationPlan plan = plan("14", "9", "0", true).result().orElseThrow();
    assertThat(plan.first()).isEqualTo(Length.of("6.0"));
    assertThat(plan.rest()).extracting(Step::amount).containsOnly(Length.of("4")).hasSize(2);
    assertThat(plan.rest()).extracting(Step::fromWeek).containsExactly(8, 16);
  }

  @Test
  void aPathThatLeavesNoRoomHasNoPlan() {
    assertThat(plan("9", "0", "0", true).reason()).contains("path");
    assertThat(plan("9", "5", "4", true).reason()).contains("path");
    assertThat(plan("9", "10", "7", true).reason()).as("nothing at all").contains("path");
    assertThat(plan("9", "0", "-1", true).reason()).as("read out of order").contains("path");
    assertThat(plan("0", "12", "0", true).reason()).contains("overjet");
  }

  private static Reckoned<ActivationPlan> plan(
      String overjet, String path, String slide, Boolean comfortable) {
    Start start =
        new Start(Length.of(overjet), Length.of(path), Length.of(slide), Length.ZERO, comfortable);
    return ActivationPlan.of(start, Share.of("0.70"));
  }
}
