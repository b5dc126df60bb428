package org.intercusp.analysis.trim;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import org.intercusp.measure.Length;

/**
 * Trimming of the upper blocks on their occlusodistal face, so that the lower first molars erupt
 * until they meet the upper ones, then of the premolar region. The incline is never cut.
 * Millimetres and weeks after fitting, or after the review that meets the overjet goal; common
 * practice, no source, the eruption rate included.
 *
 * @param visits until the molars meet, or as many as are reckoned
 * @param meetWeek week of the visit at which the molars meet; empty when they don't within the plan
 */
public record TrimmingPlan(List<Visit> visits, OptionalInt meetWeek) {

  /** Eruption in six weeks; shown for {@link #SLOW} and {@link #FAST} too. */
  public static final Length RATE = Length.of("0.5");

  /** A slow eruption in six weeks. */
  public static final Length SLOW = Length.of("0.25");

  /** A fast eruption in six weeks. */
  public static final Length FAST = Length.of("1.0");

  /** The most that is taken at a visit, whatever a stage asks for. */
  public static final Length MOST = Length.of("2");

  /**
   * The plan is reckoned in sixths of a millimetre: a rate is told for six weeks, so that a week's
   * eruption is exact in them, and a clearance that falls short of a limit does so really.
   */
  private static final BigDecimal SIXTHS = BigDecimal.valueOf(6);

  private static final BigDecimal MOST_A_VISIT = sixths(MOST);
  private static final BigDecimal WANTED_CLEARANCE = sixths("1.5");
  private static final BigDecimal MEETING_GAP = sixths("0.25");
  private static final BigDecimal HALF = sixths("0.5");
  private static final int FIRST_VISIT_WEEK = 2;
  private static final int MOST_VISITS = 60;

  public TrimmingPlan {
    visits = List.copyOf(visits);
  }

  /** Whether and when blocks are trimmed, by overbite. */
  public enum When {
    FROM_SECOND_REVIEW("from the second review"),
    AFTER_OVERJET_GOAL("after the overjet goal is reached"),
    NEVER("never: keep all posterior contact");

    private final String shown;

    When(String shown) {
      this.shown = shown;
    }

    public String shown() {
      return shown;
    }

    /**
     * Overbite 4 mm or more: at once; little, or open: never; between: later.
     *
     * @param little so much and less is never trimmed
     */
    public static When of(Length overbite, Length little) {
      if (!overbite.isAbove(little)) {
        return NEVER;
      }
      return overbite.value().compareTo(BigDecimal.valueOf(4)) >= 0
          ? FROM_SECOND_REVIEW
          : AFTER_OVERJET_GOAL;
    }
  }

  /**
   * One visit.
   *
   * @param trim taken off at it
   * @param gap between the first molars when it begins
   * @param block left when it ends
   */
  public record Visit(int week, Length trim, Length gap, Length block) {}

  /**
   * What is planned.
   *
   * @param perVisit at most; more than 2 mm counts as 2 mm
   * @param fromReview the first review at which blocks are trimmed, counted from 1
   * @param firstWeek week of the first review
   * @param reviewWeeks between reviews after the first
   * @param rate eruption in six weeks
   */
  public record Terms(
      Length perVisit, int fromReview, int firstWeek, int reviewWeeks, Length rate) {

    /** From the fitting, whose first review is at week 2. */
    public Terms(Length perVisit, int fromReview, int reviewWeeks, Length rate) {
      this(perVisit, fromReview, FIRST_VISIT_WEEK, reviewWeeks, rate);
    }

    /** From the review that meets the overjet goal: until then nothing is trimmed or erupts. */
    public static Terms afterGoal(Length perVisit, int reviewWeeks, Length rate) {
      return new Terms(perVisit, 1, reviewWeeks, reviewWeeks, rate);
    }

    public Terms {
      if (firstWeek < 1
          || reviewWeeks < 1
          || perVisit.value().signum() < 0
          || rate.value().signum() < 0) {
        throw new IllegalArgumentException("reviews at least a week apart, nothing negative");
      }
    }
  }

  /** Reckons from the molar clearance in the bite, which is gap and block height at fitting. */
  public static TrimmingPlan of(Length molarClearance, Terms terms) {
    BigDecimal gap = sixths(molarClearance);
    BigDecimal block = gap;
    List<Visit> visits = new ArrayList<>();
    int week = terms.firstWeek();
    int before = 0;
    for (int review = 1; review <= MOST_VISITS; review++) {
      BigDecimal erupted = terms.rate().value().multiply(BigDecimal.valueOf(week - before));
      gap = gap.subtract(erupted.min(gap.subtract(block)));
      boolean meet = gap.compareTo(MEETING_GAP) <= 0;
      BigDecimal trim =
          meet || review < terms.fromReview()
              ? BigDecimal.ZERO
              : trim(sixths(terms.perVisit()), block, gap.subtract(block));
      block = block.subtract(trim);
      visits.add(new Visit(week, length(trim), length(gap), length(block)));
      if (meet) {
        return new TrimmingPlan(visits, OptionalInt.of(week));
      }
      before = week;
      week += terms.reviewWeeks();
    }
    return new TrimmingPlan(visits, OptionalInt.empty());
  }

  private static BigDecimal trim(BigDecimal perVisit, BigDecimal block, BigDecimal clearance) {
    BigDecimal wanted = WANTED_CLEARANCE.subtract(clearance).max(BigDecimal.ZERO);
    BigDecimal most = perVisit.min(MOST_A_VISIT).min(block).min(wanted);
    return most.divideToIntegralValue(HALF).multiply(HALF);
  }

  private static BigDecimal sixths(String millimetres) {
    return sixths(Length.of(millimetres));
  }

  private static BigDecimal sixths(Length length) {
    return length.value().multiply(SIXTHS);
  }

  private static Length length(BigDecimal sixths) {
    return new Length(sixths.divide(SIXTHS, MathContext.DECIMAL64));
  }
}
