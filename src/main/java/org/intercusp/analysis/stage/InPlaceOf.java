package org.intercusp.analysis.stage;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Treatment;

/** What an appliance was made in place of: a plan goes on naming the first one. */
public final class InPlaceOf {

  private InPlaceOf() {}

  /**
   * The appliance itself, then those before it, the latest first: what its order says it replaces,
   * else the last of its type fitted before it.
   */
  public static List<Appliance> line(Treatment treatment, Appliance appliance) {
    List<Appliance> line = new ArrayList<>();
    Optional<Appliance> next = Optional.of(appliance);
    while (next.filter(each -> !line.contains(each)).isPresent()) {
      line.add(next.orElseThrow());
      next = before(treatment, next.orElseThrow());
    }
    return line;
  }

  private static Optional<Appliance> before(Treatment treatment, Appliance appliance) {
    String replaced = appliance.lab() == null ? null : appliance.lab().remakeOf();
    if (replaced != null) {
      return treatment.appliances().stream().filter(each -> each.id().equals(replaced)).findFirst();
    }
    LocalDate fitted = appliance.fittedOn();
    return fitted == null
        ? Optional.empty()
        : treatment.appliances().stream()
            .filter(each -> each.type() == appliance.type())
            .filter(each -> fitted(each).isBefore(fitted))
            .max(Comparator.comparing(InPlaceOf::fitted));
  }

  /** Never fitted counts as after all days. */
  private static LocalDate fitted(Appliance appliance) {
    return Objects.requireNonNullElse(appliance.fittedOn(), LocalDate.MAX);
  }
}
