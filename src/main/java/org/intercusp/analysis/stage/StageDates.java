package org.intercusp.analysis.stage;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.intercusp.analysis.Reckoned;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * When a stage runs: from the day it states, else from the end of the stage before, the first one
 * from the first fitting.
 *
 * @param stated whether the start stands in the record
 * @param start first day
 * @param end first day after it
 */
public record StageDates(Stage stage, boolean stated, LocalDate start, LocalDate end) {

  /** The dates of all stages in their order; a stage whose start can't be told says why. */
  public static List<Reckoned<StageDates>> of(Treatment treatment) {
    List<Reckoned<StageDates>> dates = new ArrayList<>();
    LocalDate next = firstFitting(treatment).orElse(null);
    for (Stage stage : treatment.stages()) {
      Reckoned<StageDates> of = of(stage, next);
      dates.add(of);
      next = of.result().map(StageDates::end).orElse(null);
    }
    return dates;
  }

  private static Reckoned<StageDates> of(Stage stage, @Nullable LocalDate next) {
    LocalDate stated = stage.startsOn();
    LocalDate start = stated == null ? next : stated;
    if (start == null) {
      return Reckoned.lacking("no start of the stage and no date an appliance was fitted");
    }
    return Reckoned.known(
        new StageDates(stage, stated != null, start, start.plusMonths(stage.months())));
  }

  /** The day the first appliance was fitted. */
  public static Optional<LocalDate> firstFitting(Treatment treatment) {
    return treatment.appliances().stream()
        .map(Appliance::fittedOn)
        .filter(Objects::nonNull)
        .min(LocalDate::compareTo);
  }

  /** The stage that runs on a day by its dates. */
  public static Optional<StageDates> on(Treatment treatment, LocalDate day) {
    return of(treatment).stream()
        .map(Reckoned::result)
        .flatMap(Optional::stream)
        .filter(dates -> !day.isBefore(dates.start()) && day.isBefore(dates.end()))
        .findFirst();
  }
}
