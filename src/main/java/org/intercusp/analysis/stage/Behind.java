package org.intercusp.analysis.stage;

import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/**
 * What a treatment has left behind, as far as the record tells: the dates of a plan alone say
 * nothing of what was done.
 */
public final class Behind {

  private Behind() {}

  /** The stages before the one the patient was last seen in; none before the first review. */
  public static List<Stage> stages(Treatment treatment) {
    List<Stage> all = treatment.stages();
    return current(treatment).map(now -> all.subList(0, all.indexOf(now))).orElse(List.of());
  }

  /** The stages that come after the one the patient was last seen in; none before a review. */
  public static List<Stage> ahead(Treatment treatment) {
    List<Stage> all = treatment.stages();
    return current(treatment)
        .map(now -> all.subList(all.indexOf(now) + 1, all.size()))
        .orElse(List.of());
  }

  private static Optional<Stage> current(Treatment treatment) {
    LocalDate day = day(treatment);
    return treatment.lastReview(day).flatMap(seen -> CurrentStage.on(treatment, day));
  }

  /**
   * The day an appliance gave way to another: one that was made in its place, or the first that a
   * later stage wears instead of it.
   */
  public static Optional<LocalDate> wornUntil(Treatment treatment, Appliance appliance) {
    LocalDate fitted = appliance.fittedOn();
    if (fitted == null) {
      return Optional.empty();
    }
    return treatment.appliances().stream()
        .filter(other -> replaces(treatment, other, appliance))
        .map(Appliance::fittedOn)
        .filter(Objects::nonNull)
        .filter(day -> day.isAfter(fitted) && !day.isAfter(day(treatment)))
        .min(LocalDate::compareTo);
  }

  private static boolean replaces(Treatment treatment, Appliance other, Appliance appliance) {
    if (other.lab() != null && appliance.id().equals(other.lab().remakeOf())) {
      return true;
    }
    int last = -1;
    int first = Integer.MAX_VALUE;
    for (int i = 0; i < treatment.stages().size(); i++) {
      String named = treatment.stages().get(i).applianceId();
      if (named != null && wears(treatment, appliance, named)) {
        last = i;
      } else if (other.id().equals(named)) {
        first = Math.min(first, i);
      }
    }
    return last >= 0 && last < first && first < Integer.MAX_VALUE;
  }

  /** A remake is worn where the plan goes on naming what it was made in place of. */
  private static boolean wears(Treatment treatment, Appliance appliance, String named) {
    return InPlaceOf.line(treatment, appliance).stream().anyMatch(one -> one.id().equals(named));
  }

  /** The day the record speaks of; where it names none, that of the last thing it tells. */
  private static LocalDate day(Treatment treatment) {
    LocalDate asOf = treatment.asOf();
    return asOf != null
        ? asOf
        : Stream.concat(
                treatment.reviews().stream().map(Review::date),
                treatment.appliances().stream().map(Appliance::fittedOn).filter(Objects::nonNull))
            .max(LocalDate::compareTo)
            .orElse(LocalDate.MIN);
  }
}
