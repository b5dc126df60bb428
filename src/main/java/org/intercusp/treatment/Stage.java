package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.jspecify.annotations.Nullable;

/**
 * A stage of the plan.
 *
 * @param startsOn computed from the stages before it where absent
 * @param wearHours prescribed wear
 */
public record Stage(
    String id,
    StageKind kind,
    @Nullable String applianceId,
    @Nullable LocalDate startsOn,
    int months,
    int reviewWeeks,
    @Nullable HoursPerDay wearHours,
    @Nullable Trimming trimming,
    List<Goal> goals) {

  public Stage {
    goals = List.copyOf(goals);
  }

  /**
   * Planned trimming of the upper blocks.
   *
   * @param perVisit at most so much at a visit
   * @param fromReview the review it starts at, counted from 1
   */
  public record Trimming(Length perVisit, int fromReview) {}

  /** A measurable goal whose meeting ends the stage. */
  public record Goal(Measure measure, Comparator comparator, Length target) {

    /** Whether a measured value meets the goal. */
    public boolean isMetBy(Length measured) {
      int order = measured.compareTo(target);
      return comparator == Comparator.AT_MOST ? order <= 0 : order >= 0;
    }

    /** What a goal measures. */
    public enum Measure implements Coded {
      OVERJET("overjet"),
      OVERBITE("overbite"),
      MOLAR_RELATION("molarRelation"),
      POSTERIOR_OPEN_BITE("posteriorOpenBite");

      private final String code;

      Measure(String code) {
        this.code = code;
      }

      @Override
      public String code() {
        return code;
      }
    }

    /** How a goal compares. */
    public enum Comparator implements Coded {
      AT_MOST("le"),
      AT_LEAST("ge");

      private final String code;

      Comparator(String code) {
        this.code = code;
      }

      @Override
      public String code() {
        return code;
      }
    }
  }
}
