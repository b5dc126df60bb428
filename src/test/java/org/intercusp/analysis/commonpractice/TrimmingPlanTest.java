package org.intercusp.analysis.commonpractice;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.util.List;
import org.intercusp.analysis.trim.TrimmingPlan;
import org.intercusp.analysis.trim.TrimmingPlan.Terms;
import org.intercusp.analysis.trim.TrimmingPlan.Visit;
import org.intercusp.analysis.trim.TrimmingPlan.When;
import org.intercusp.measure.Length;
import org.junit.jupiter.api.Test;

/**
 * Common practice, no source: the trimming of the upper blocks, worked for a gap of 3.0 mm and
 * visits every six weeks. Exact: the plan is decimal.
 */
class TrimmingPlanTest {

  /** Overbite that is never trimmed (common practice, no source). */
  private static final Length LITTLE = Length.of("1");

  @Test
  void aGapOfThreeMeetsAtWeekFortyFour() {
    TrimmingPlan plan = plan("3.0", TrimmingPlan.RATE);
    assertThat(plan.visits()).extracting(Visit::week).containsExactly(2, 8, 14, 20, 26, 32, 38, 44);
    assertThat(lengths(plan.visits(), true))
        .containsExactly("0", "1.5", "0.5", "0.5", "0.5", "0", "0", "0");
    assertThat(lengths(plan.visits(), false))
        .containsExactly("3", "3", "2.5", "2", "1.5", "1", "0.5", "0");
    assertThat(plan.meetWeek()).hasValue(44);
  }

  @Test
  void aSlowerEruptionMeetsLaterAndAFasterOneSooner() {
    assertThat(plan("3.0", TrimmingPlan.SLOW).meetWeek().orElseThrow()).isGreaterThan(44);
    assertThat(plan("3.0", TrimmingPlan.FAST).meetWeek().orElseThrow()).isLessThan(44);
  }

  /**
   * By hand in twelfths of a millimetre: seven weeks erupt up to 7/12 mm, which no decimal holds.
   * Four visits leave clearances of 5/12, 4/12, 3/12, 2/12 mm and so on; at week 44 one of exactly
   * 1 mm off is due.
   */
  @Test
  void aWeekThatIsNoDecimalPartOfTheRateLosesNoTrim() {
    TrimmingPlan plan =
        TrimmingPlan.of(Length.of("5.5"), new Terms(Length.of("1"), 1, 7, TrimmingPlan.RATE));
    assertThat(lengths(plan.visits(), true).subList(0, 8))
        .containsExactly("1", "1", "0.5", "0.5", "0.5", "0.5", "1", "0.5");
    assertThat(plan.meetWeek()).hasValue(65);
    TrimmingPlan weekly =
        TrimmingPlan.of(Length.of("2"), new Terms(Length.of("1.5"), 2, 1, TrimmingPlan.RATE));
    assertThat(weekly.visits().stream().filter(visit -> !visit.trim().equals(Length.ZERO)))
        .extracting(Visit::week)
        .containsExactly(3, 9);
    assertThat(weekly.meetWeek()).hasValue(24);
  }

  @Test
  void withoutEruptionOrTrimmingTheyNeverMeet() {
    assertThat(plan("3.0", Length.ZERO).meetWeek()).isEmpty();
    Terms none = new Terms(Length.ZERO, 2, 6, TrimmingPlan.RATE);
    assertThat(TrimmingPlan.of(Length.of("3"), none).meetWeek()).isEmpty();
  }

  @Test
  void noVisitTakesMoreThanTwoMillimetres() {
    Terms greedy = new Terms(Length.of("5"), 1, 30, TrimmingPlan.FAST);
    assertThat(TrimmingPlan.of(Length.of("9"), greedy).visits())
        .allMatch(visit -> !visit.trim().isAbove(Length.of("2")))
        .allMatch(visit -> !visit.block().isBelow(Length.ZERO));
  }

  @Test
  void theOverbiteSaysWhetherBlocksAreTrimmed() {
    assertThat(When.of(Length.of("4.0"), LITTLE)).isEqualTo(When.FROM_SECOND_REVIEW);
    assertThat(When.of(Length.of("3.9"), LITTLE)).isEqualTo(When.AFTER_OVERJET_GOAL);
    assertThat(When.of(Length.of("1.1"), LITTLE)).isEqualTo(When.AFTER_OVERJET_GOAL);
    assertThat(When.of(Length.of("1.0"), LITTLE)).isEqualTo(When.NEVER);
    assertThat(When.of(Length.of("-2"), LITTLE)).isEqualTo(When.NEVER);
  }

  private static TrimmingPlan plan(String clearance, Length rate) {
    return TrimmingPlan.of(Length.of(clearance), new Terms(Length.of("2"), 2, 6, rate));
  }

  private static List<String> lengths(List<Visit> visits, boolean trims) {
    return visits.stream()
        .map(visit -> trims ? visit.trim().value() : visit.gap().value())
        .map(BigDecimal::stripTrailingZeros)
        .map(number -> number.signum() == 0 ? "0" : number.toPlainString())
        .toList();
  }
}
