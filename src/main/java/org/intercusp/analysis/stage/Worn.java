package org.intercusp.analysis.stage;

import java.time.LocalDate;
import java.util.Optional;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Treatment;

/**
 * The appliance in the patient's mouth, which need not be the one its stage names: another may have
 * been made for the same stage, or that of a new stage may not be fitted yet.
 */
public final class Worn {

  private Worn() {}

  /** The appliance fitted last by the day; the later of the record where two were. */
  public static Optional<Appliance> on(Treatment treatment, LocalDate day) {
    Appliance worn = null;
    LocalDate since = LocalDate.MIN;
    for (Appliance appliance : treatment.appliances()) {
      LocalDate fitted = appliance.fittedOn();
      if (fitted != null && !fitted.isAfter(day) && !fitted.isBefore(since)) {
        worn = appliance;
        since = fitted;
      }
    }
    return Optional.ofNullable(worn);
  }
}
