package org.intercusp.analysis.plan;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.jspecify.annotations.Nullable;

/**
 * How an overjet is taken forward: in one step, or a first step and the rest at least eight weeks
 * apart. Millimetres; common practice, no source. That small frequent steps have no advantage over
 * one is published: Am J Orthod Dentofacial Orthop 2004;126:583-588.
 *
 * @param allowed advance from the habitual position within the share of the path
 * @param needed overjet minus the overjet wanted in the bite
 * @param oneStep whether one step does
 * @param first the first step, in whole half millimetres when staged
 * @param firstShare share of the path that the first step uses, the slide included
 * @param overjetInBite after the first step
 * @param rest the later steps; empty for one step
 */
public record ActivationPlan(
    Length allowed,
    Length needed,
    boolean oneStep,
    Length first,
    Share firstShare,
    Length overjetInBite,
    List<Step> rest) {

  private static final BigDecimal ONE_STEP_OVERJET = BigDecimal.valueOf(10);
  private static final BigDecimal LARGEST_FIRST = BigDecimal.valueOf(8);
  private static final BigDecimal LARGEST_LATER = BigDecimal.valueOf(4);
  private static final BigDecimal EXIT_OVERJET = BigDecimal.valueOf(3);

  /** Least weeks between steps: common practice, no source. */
  public static final int WEEKS_APART = 8;

  public ActivationPlan {
    rest = List.copyOf(rest);
  }

  /**
   * A later step.
   *
   * @param fromWeek earliest week after the first
   * @param opensAtOverjet it may be taken once the overjet measured then is at most this, if path
   *     and slide have not changed
   * @param probablyNotNeeded because the overjet it opens at is one at which the stage is left
   */
  public record Step(
      Length amount, int fromWeek, Length opensAtOverjet, boolean probablyNotNeeded) {}

  /**
   * Where the plan starts.
   *
   * @param path from the retruded position (habitual, the slide then being zero) to the maximum
   * @param slide habitual minus retruded, zero where it is assumed
   * @param target overjet wanted in the bite, usually zero
   * @param comfortable whether the patient holds the full position; null where nobody said
   */
  public record Start(
      Length overjet, Length path, Length slide, Length target, @Nullable Boolean comfortable) {}

  /** Plans from a start and the share of the path that is allowed. */
  public static Reckoned<ActivationPlan> of(Start start, Share limit) {
    return room(start, limit).flatMap(allowed -> within(allowed, start, limit));
  }

  /** What {@link #allowed} leaves, whatever is needed; lacking where it leaves nothing. */
  public static Reckoned<Length> room(Start start, Share limit) {
    Length allowed = allowed(start, limit);
    return start.path().value().signum() <= 0 || allowed.value().signum() <= 0
        ? Reckoned.lacking("the protrusive path leaves no room for an advance")
        : Reckoned.known(allowed);
  }

  private static Reckoned<ActivationPlan> within(Length allowed, Start start, Share limit) {
    Length needed = start.overjet().minus(start.target());
    if (needed.value().signum() <= 0) {
      return Reckoned.lacking("the overjet is not above the overjet wanted in the bite");
    }
    boolean one =
        start.overjet().value().compareTo(ONE_STEP_OVERJET) <= 0
            && !needed.isAbove(allowed)
            && !Boolean.FALSE.equals(start.comfortable());
    Length first = one ? needed : halves(needed.value().min(LARGEST_FIRST).min(allowed.value()));
    Share share =
        new Share(
            first.plus(start.slide()).value().divide(start.path().value(), MathContext.DECIMAL64));
    return Reckoned.known(
        new ActivationPlan(
            allowed,
            needed,
            one,
            first,
            share,
            start.overjet().minus(first),
            later(start, needed.minus(first), limit)));
  }

  /** The advance from the habitual position within the share of the path; may be none at all. */
  public static Length allowed(Start start, Share limit) {
    return new Length(limit.value().multiply(start.path().value())).minus(start.slide());
  }

  private static List<Step> later(Start start, Length rest, Share limit) {
    int count =
        rest.value()
            .divide(LARGEST_LATER, MathContext.DECIMAL64)
            .setScale(0, RoundingMode.CEILING)
            .intValueExact();
    List<Step> steps = new ArrayList<>();
    for (int k = 1; k <= count; k++) {
      BigDecimal each = rest.value().divide(BigDecimal.valueOf(count), MathContext.DECIMAL64);
      BigDecimal left = each.multiply(BigDecimal.valueOf(count - k));
      BigDecimal opens = opensAt(start, start.target().value().add(left), limit);
      steps.add(
          new Step(
              new Length(hundredths(each)),
              WEEKS_APART * k,
              new Length(hundredths(opens)),
              opens.compareTo(EXIT_OVERJET) <= 0));
    }
    return steps;
  }

  /**
   * The overjet at which {@code overjet - T + h <= limit x P} holds, the maximum position being
   * where it was: P shrinks with the overjet.
   */
  private static BigDecimal opensAt(Start start, BigDecimal target, Share limit) {
    BigDecimal beyond = start.path().minus(start.overjet()).value();
    BigDecimal room = limit.value().multiply(beyond).add(target).subtract(start.slide().value());
    return room.divide(BigDecimal.ONE.subtract(limit.value()), MathContext.DECIMAL64);
  }

  private static Length halves(BigDecimal millimetres) {
    BigDecimal two = BigDecimal.valueOf(2);
    return new Length(
        millimetres
            .multiply(two)
            .setScale(0, RoundingMode.FLOOR)
            .divide(two, 1, RoundingMode.UNNECESSARY));
  }

  private static BigDecimal hundredths(BigDecimal number) {
    return number.setScale(2, RoundingMode.HALF_UP);
  }
}
