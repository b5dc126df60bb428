package org.intercusp.summary.content;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.intercusp.analysis.stage.CurrentStage;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.analysis.stage.StageDates;
import org.intercusp.analysis.stage.Worn;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/** Where a treatment stands on a day: its last review, its stage, what is worn and what is next. */
record Course(Treatment treatment, LocalDate on) {

  Optional<Review> lastReview() {
    return treatment.lastReview(on);
  }

  Optional<Stage> stage() {
    return CurrentStage.on(treatment, on);
  }

  /**
   * The first day after the stage: by its dates, and not before its length has passed since its own
   * appliance was fitted, since stages of late patients begin late.
   */
  Optional<LocalDate> stageEnd() {
    return stage()
        .flatMap(
            stage ->
                Stream.of(
                        planned(stage).map(StageDates::end),
                        own(stage)
                            .map(Appliance::fittedOn)
                            .map(fitted -> fitted.plusMonths(stage.months())))
                    .flatMap(Optional::stream)
                    .max(LocalDate::compareTo));
  }

  private Optional<StageDates> planned(Stage stage) {
    return StageDates.of(treatment).stream()
        .flatMap(dates -> dates.result().stream())
        .filter(dates -> dates.stage().equals(stage))
        .findFirst();
  }

  /** The appliance in the mouth, which need not be the one the stage names. */
  Optional<Appliance> worn() {
    return Worn.on(treatment, on);
  }

  /**
   * The appliance worn; where no fitting is recorded, that of the stage, else the last one ordered.
   */
  Optional<Appliance> appliance() {
    return worn().or(() -> stage().flatMap(this::own)).or(this::lastOrdered);
  }

  /** Whether the patient has no appliance yet; a review tells that there is one, fitted or not. */
  boolean notYetFitted() {
    return worn().isEmpty() && lastReview().isEmpty();
  }

  private Optional<Appliance> own(Stage stage) {
    return treatment.appliances().stream()
        .filter(each -> each.id().equals(stage.applianceId()))
        .findFirst();
  }

  /** The last one ordered by the day; the last of the record where none has been. */
  Optional<Appliance> lastOrdered() {
    List<Appliance> all = treatment.appliances();
    return all.stream()
        .filter(each -> !each.orderedOn().isAfter(on))
        .max(Comparator.comparing(Appliance::orderedOn))
        .or(() -> all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1)));
  }

  Optional<Bite> bite(Appliance appliance) {
    return treatment.bites().stream()
        .filter(each -> each.id().equals(appliance.biteId()))
        .findFirst();
  }

  Optional<NextReview> next() {
    return NextReview.of(treatment).result();
  }

  /** The day or days of the next review, that it was due, or why there is none. */
  String nextShown() {
    return next()
        .map(
            due ->
                isPast(due)
                    ? "was due " + due.by()
                    : due.from().equals(due.by())
                        ? due.by().toString()
                        : due.from() + " to " + due.by())
        .orElseGet(
            () -> "none: " + (ended() ? "treatment has ended" : NextReview.of(treatment).reason()));
  }

  /** A day that is past is never promised. */
  boolean isPast(NextReview due) {
    return due.by().isBefore(on);
  }

  boolean ended() {
    return treatment.hasEnded();
  }
}
