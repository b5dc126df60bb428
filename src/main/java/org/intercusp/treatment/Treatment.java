package org.intercusp.treatment;

import java.time.LocalDate;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/**
 * One patient treatment, the clinic's whole record of it.
 *
 * @param asOf the date the record speaks of; the day of reading where absent
 */
public record Treatment(
    String id,
    @Nullable LocalDate asOf,
    Organisation clinic,
    Person clinician,
    Patient patient,
    @Nullable Person referrer,
    @Nullable Organisation laboratory,
    Diagnosis diagnosis,
    List<Bite> bites,
    List<Appliance> appliances,
    List<Stage> stages,
    List<Review> reviews,
    List<Film> films,
    List<StudyModel> models,
    List<Outcome> outcomes,
    @Nullable Completion completion,
    List<Acceptance> acceptances) {

  /** The value of the file's {@code format} member. */
  public static final String FORMAT = "intercusp-treatment/1";

  public Treatment {
    bites = List.copyOf(bites);
    appliances = List.copyOf(appliances);
    stages = List.copyOf(stages);
    reviews = List.copyOf(reviews);
    films = List.copyOf(films);
    models = List.copyOf(models);
    outcomes = List.copyOf(outcomes);
    acceptances = List.copyOf(acceptances);
  }

  /** The day it is judged for: the day it speaks of, or today where it names none. */
  public LocalDate dayOr(LocalDate today) {
    return asOf == null ? today : asOf;
  }

  /** The reviews by date, those of one day in the order of the file. */
  public List<Review> reviewsByDate() {
    return reviews.stream().sorted(Comparator.comparing(Review::date)).toList();
  }

  /** The last review by date; of several on one day the last of the file. */
  public Optional<Review> lastReview() {
    return lastReview(LocalDate.MAX);
  }

  /** The last review by a day, that day included; of several on one day the last of the file. */
  public Optional<Review> lastReview(LocalDate by) {
    return reviewsByDate().stream()
        .filter(each -> !each.date().isAfter(by))
        .reduce((before, after) -> after);
  }

  /** Whether it is over for this clinic, completed or not. */
  public boolean hasEnded() {
    return completion != null && completion.status() != Completion.Status.IN_TREATMENT;
  }
}
