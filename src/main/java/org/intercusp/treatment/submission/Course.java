package org.intercusp.treatment.submission;

import java.time.LocalDate;
import java.util.List;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Completion.Reason;
import org.intercusp.treatment.GrowthStage;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.OutcomeScores.Icon;
import org.intercusp.treatment.OutcomeScores.Par;
import org.intercusp.treatment.Sex;
import org.jspecify.annotations.Nullable;

/**
 * One course of treatment as a registry needs it. Dates are reduced before they are kept; lengths
 * go in days, since reduced dates would spoil them.
 *
 * @param appliance type of the first active appliance
 * @param firstFittedOn of the first active appliance
 * @param decidedOn day of completion, of stopping, or of the last word on it; none where nobody
 *     knows whether it ended
 * @param wearReported mean over the reviews, hours a day
 * @param wearMeasured mean of the sensor's spans, hours a day
 */
public record Course(
    LocalDate birthDate,
    Sex sex,
    ApplianceType appliance,
    @Nullable LocalDate firstFittedOn,
    @Nullable GrowthStage growthStage,
    CourseStatus status,
    @Nullable Reason reason,
    @Nullable LocalDate decidedOn,
    @Nullable LocalDate lastAttendedOn,
    @Nullable StageDays stageDays,
    int reviews,
    @Nullable HoursPerDay wearReported,
    @Nullable HoursPerDay wearMeasured,
    int breakages,
    List<HarmCount> adverseEvents,
    List<Assessment> assessments) {

  public Course {
    adverseEvents = List.copyOf(adverseEvents);
    assessments = List.copyOf(assessments);
  }

  /** Length of each stage so far, in days; absent where it did not begin or is not known. */
  public record StageDays(
      @Nullable Integer active,
      @Nullable Integer support,
      @Nullable Integer fixed,
      @Nullable Integer retention) {}

  /**
   * How often an adverse event happened.
   *
   * @param serious how many of them were serious
   */
  public record HarmCount(HarmEvent.Code code, int count, int serious) {}

  /**
   * What was measured and scored at one phase.
   *
   * @param par components, unweighted
   * @param parAgain the second scoring of the same records, for examiner agreement
   * @param dhc grade of the dental health component
   * @param aesthetic the aesthetic component, 1 to 10
   */
  public record Assessment(
      Outcome.Phase phase,
      LocalDate date,
      @Nullable Length overjet,
      @Nullable Length overbite,
      @Nullable Par par,
      @Nullable Par parAgain,
      @Nullable String dhc,
      @Nullable Icon icon,
      @Nullable Integer aesthetic) {}
}
