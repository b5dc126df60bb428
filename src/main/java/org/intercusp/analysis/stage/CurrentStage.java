package org.intercusp.analysis.stage;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/**
 * The stage a patient is in. What was seen comes before what was planned: a patient who is late is
 * still in the stage of the last review, whatever the dates of the plan say, and wears what that
 * stage asks for.
 */
public final class CurrentStage {

  private CurrentStage() {}

  /**
   * The stage of the last review; that of a later stage's appliance once it has been fitted on or
   * after that review; before the first review the stage that runs by its dates.
   */
  public static Optional<Stage> on(Treatment treatment, LocalDate day) {
    return treatment
        .lastReview(day)
        .flatMap(review -> since(treatment, review, day))
        .or(() -> byDates(treatment, day));
  }

  private static Optional<Stage> since(Treatment treatment, Review review, LocalDate day) {
    Optional<Stage> seen =
        treatment.stages().stream().filter(each -> each.id().equals(review.stageId())).findFirst();
    return seen.map(stage -> later(treatment, stage, review, day).orElse(stage));
  }

  /** The later stage whose own appliance was fitted last, on or after the review. */
  private static Optional<Stage> later(
      Treatment treatment, Stage seen, Review review, LocalDate day) {
    List<Stage> all = treatment.stages();
    List<Stage> after = all.subList(all.indexOf(seen) + 1, all.size());
    return treatment.appliances().stream()
        .filter(each -> !each.id().equals(seen.applianceId()))
        .filter(each -> after.stream().anyMatch(stage -> each.id().equals(stage.applianceId())))
        .filter(each -> fitted(each, review.date(), day))
        .max(Comparator.comparing(CurrentStage::fittedOn))
        .flatMap(worn -> wearing(treatment, worn, after, day));
  }

  private static boolean fitted(Appliance appliance, LocalDate from, LocalDate to) {
    LocalDate fitted = appliance.fittedOn();
    return fitted != null && !fitted.isBefore(from) && !fitted.isAfter(to);
  }

  private static LocalDate fittedOn(Appliance appliance) {
    LocalDate fitted = appliance.fittedOn();
    return fitted == null ? LocalDate.MIN : fitted;
  }

  /** Where several stages wear one appliance, the last of them begun by the dates of the plan. */
  private static Optional<Stage> wearing(
      Treatment treatment, Appliance worn, List<Stage> after, LocalDate day) {
    List<Stage> wearing =
        after.stream().filter(stage -> worn.id().equals(stage.applianceId())).toList();
    return StageDates.of(treatment).stream()
        .flatMap(reckoned -> reckoned.result().stream())
        .filter(dates -> wearing.contains(dates.stage()) && !day.isBefore(dates.start()))
        .map(StageDates::stage)
        .reduce((first, second) -> second)
        .or(() -> wearing.stream().findFirst());
  }

  private static Optional<Stage> byDates(Treatment treatment, LocalDate day) {
    return StageDates.on(treatment, day).map(StageDates::stage);
  }
}
