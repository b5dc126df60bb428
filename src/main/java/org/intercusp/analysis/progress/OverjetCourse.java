package org.intercusp.analysis.progress;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.StageKind;
import org.intercusp.treatment.Treatment;

/**
 * The overjets of the active treatment: the one registered with the bite of the first fitted
 * appliance (else the one of the diagnosis) set at its fitting, then those of the reviews in active
 * stages.
 *
 * @param fitted the first fitting
 * @param atFitting the overjet then
 * @param reviews in active stages, from the fitting to the day, in order of date
 */
public record OverjetCourse(LocalDate fitted, Length atFitting, List<Review> reviews) {

  public OverjetCourse {
    reviews = List.copyOf(reviews);
  }

  /** The course up to a day; lacking when nothing has been fitted by then. */
  public static Reckoned<OverjetCourse> of(Treatment treatment, LocalDate until) {
    Appliance first = null;
    for (Appliance appliance : treatment.appliances()) {
      LocalDate fitted = appliance.fittedOn();
      if (fitted != null && !fitted.isAfter(until)) {
        LocalDate earliest = first == null ? null : first.fittedOn();
        first = earliest == null || fitted.isBefore(earliest) ? appliance : first;
      }
    }
    LocalDate fitted = first == null ? null : first.fittedOn();
    if (first == null || fitted == null) {
      return Reckoned.lacking("no date an appliance was fitted");
    }
    List<Review> reviews =
        treatment.reviews().stream()
            .filter(review -> !review.date().isBefore(fitted) && !review.date().isAfter(until))
            .filter(review -> isActive(treatment, review))
            .sorted(Comparator.comparing(Review::date))
            .toList();
    return Reckoned.known(new OverjetCourse(fitted, overjetAt(treatment, first), reviews));
  }

  private static Length overjetAt(Treatment treatment, Appliance appliance) {
    return treatment.bites().stream()
        .filter(bite -> Objects.equals(bite.id(), appliance.biteId()))
        .map(Bite::overjetHabitual)
        .findFirst()
        .orElse(treatment.diagnosis().overjet());
  }

  private static boolean isActive(Treatment treatment, Review review) {
    return treatment.stages().stream()
        .anyMatch(stage -> stage.id().equals(review.stageId()) && stage.kind() == StageKind.ACTIVE);
  }

  /** The last review of the course. */
  public Optional<Review> last() {
    return reviews.isEmpty() ? Optional.empty() : Optional.of(reviews.get(reviews.size() - 1));
  }

  /** The course up to and with one of its reviews. */
  public Reckoned<Progress> progress(Review until) {
    List<Progress.Point> points = new ArrayList<>();
    points.add(new Progress.Point(fitted, atFitting));
    reviews.stream()
        .filter(review -> !review.date().isAfter(until.date()))
        .forEach(review -> points.add(new Progress.Point(review.date(), review.overjet())));
    return Progress.of(points);
  }

  /** The whole course. */
  public Reckoned<Progress> progress() {
    return last()
        .map(this::progress)
        .orElseGet(() -> Reckoned.lacking("no review in an active stage"));
  }
}
