package org.intercusp.analysis.stage;

import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.Objects;
import org.intercusp.analysis.Reckoned;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;

/** Quarter turns of an appliance's own screw: those of an earlier one are no part of its plan. */
public final class ScrewTurns {

  private ScrewTurns() {}

  /**
   * Turns told at reviews from the fitting of the appliance to a day; none before it is fitted. A
   * review tells of the time before it, so one on the day of fitting tells of the screw worn until
   * then, where there was one.
   */
  public static int done(Treatment treatment, Appliance appliance, LocalDate until) {
    LocalDate fitted = appliance.fittedOn();
    if (fitted == null) {
      return 0;
    }
    LocalDate first = followsAScrew(treatment, fitted) ? fitted.plusDays(1) : fitted;
    return treatment.reviews().stream()
        .filter(each -> !each.date().isBefore(first) && !each.date().isAfter(until))
        .map(Review::screwTurns)
        .filter(Objects::nonNull)
        .mapToInt(Integer::intValue)
        .sum();
  }

  private static boolean followsAScrew(Treatment treatment, LocalDate fitted) {
    return treatment.appliances().stream()
        .anyMatch(
            each ->
                each.screw() != null
                    && each.fittedOn() != null
                    && each.fittedOn().isBefore(fitted));
  }

  /**
   * Turns that fall between what is known and the next visit, no more than the plan has left: one
   * every {@code daysPerTurn} days since the last review, whose turns are counted, or since the
   * fitting where that came later (common practice, no source). The day the record speaks of plays
   * no part: turns made since the last review are told at the next.
   *
   * @param on the day the record speaks of
   * @param visit the day of the next visit
   */
  public static Reckoned<Integer> due(
      Treatment treatment, Appliance appliance, LocalDate on, LocalDate visit) {
    Appliance.Screw screw = appliance.screw();
    LocalDate fitted = appliance.fittedOn();
    if (screw == null || fitted == null) {
      return Reckoned.lacking("no screw, or not fitted");
    }
    if (screw.daysPerTurn() < 1) {
      return Reckoned.lacking("daysPerTurn of the screw is not a number of days");
    }
    LocalDate from =
        treatment.reviews().stream()
            .map(Review::date)
            .filter(date -> date.isAfter(fitted))
            .max(LocalDate::compareTo)
            .orElse(fitted);
    long fall = Math.max(0, ChronoUnit.DAYS.between(from, visit)) / screw.daysPerTurn();
    int left = Math.max(0, screw.plannedTurns() - done(treatment, appliance, on));
    return Reckoned.known((int) Math.min(fall, left));
  }
}
