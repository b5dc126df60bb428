package org.intercusp.analysis.stage;

import java.time.LocalDate;
import java.util.Objects;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;

/** Quarter turns of an appliance's own screw: those of an earlier one are no part of its plan. */
public final class ScrewTurns {

  private ScrewTurns() {}

  /** Turns told at reviews from the fitting of the appliance to a day; none before it is fitted. */
  public static int done(Treatment treatment, Appliance appliance, LocalDate until) {
    LocalDate fitted = appliance.fittedOn();
    return fitted == null
        ? 0
        : treatment.reviews().stream()
            .filter(each -> !each.date().isBefore(fitted) && !each.date().isAfter(until))
            .map(Review::screwTurns)
            .filter(Objects::nonNull)
            .mapToInt(Integer::intValue)
            .sum();
  }
}
