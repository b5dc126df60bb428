package org.intercusp.summary.content;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.function.Function;
import org.intercusp.analysis.film.FilmFigures;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.measure.Unit;
import org.intercusp.rules.Examination;
import org.intercusp.summary.wording.Codes;
import org.intercusp.summary.wording.Numbers;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Hygiene;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/** What a dentist should watch between the orthodontist's visits, with what is known of each. */
final class Watch {

  private final Treatment treatment;
  private final LocalDate on;
  private final Examination examination;

  Watch(Course course, Examination examination) {
    this.treatment = course.treatment();
    this.on = course.on();
    this.examination = examination;
  }

  List<String> items() {
    List<String> items = new ArrayList<>();
    items.add("Hygiene: " + hygiene() + ". Look for plaque about clasps and bow.");
    items.add("Caries: " + caries() + ". Look for white spots on clasped teeth.");
    items.add("Lower incisors: " + incisors() + ". Look for tipping, mobility, recession.");
    items.add("Jaw joint: " + joint() + ". Look for pain, locking, opening below 35 mm.");
    items.add("Allergy: " + Lines.list(treatment.patient().allergies()) + ".");
    events().ifPresent(items::add);
    return items;
  }

  private String hygiene() {
    Hygiene known = latest(Review::hygiene).orElse(treatment.diagnosis().hygiene());
    return known == null ? Lines.NOT_RECORDED : Codes.words(known);
  }

  private String caries() {
    Boolean active = treatment.diagnosis().activeCaries();
    if (active == null) {
      return Lines.NOT_RECORDED + " at the start";
    }
    return active ? "active at the start" : "none active at the start";
  }

  /** By the last film that shows them by the day, of a film traced twice by its first tracing. */
  private String incisors() {
    List<Film> films =
        FilmFigures.firstTracings(treatment.films()).stream()
            .filter(film -> !film.takenOn().isAfter(on))
            .toList();
    for (int i = films.size() - 1; i >= 0; i--) {
      String shown = inclination(films.get(i).id()).orElse(null);
      if (shown != null) {
        return "L1-Md "
            + shown
            + (i == films.size() - 1
                ? " on the last film"
                : " on the film of " + films.get(i).takenOn() + ", not measured on the last");
      }
    }
    return "no film measured";
  }

  private Optional<String> inclination(String film) {
    return examination.figures().stream()
        .filter(figure -> figure.name().equals("l1-md") && figure.subject().equals(film))
        .filter(figure -> figure.value() != null)
        .map(Watch::shown)
        .findFirst();
  }

  private static String shown(Figure figure) {
    Value value = figure.value();
    String angle = value == null ? "" : Unit.DEGREE.behind(value.shown());
    return angle + " (usual " + figure.usual() + ")";
  }

  private String joint() {
    List<String> start = Lines.codes(treatment.diagnosis().jointSigns());
    String signs =
        latest(Review::jointSigns)
            .map(seen -> Lines.list(Lines.codes(seen)))
            .orElseGet(() -> Lines.list(start) + " at the start");
    return signs
        + latest(Review::maximumOpening)
            .map(length -> ", opening " + Numbers.of(length))
            .orElse("");
  }

  /** What the last review says that says it at all. */
  private <T> Optional<T> latest(Function<Review, @Nullable T> part) {
    return treatment.reviewsByDate().stream()
        .filter(review -> !review.date().isAfter(on))
        .map(part)
        .filter(Objects::nonNull)
        .map(Objects::requireNonNull)
        .reduce((before, after) -> after);
  }

  private Optional<String> events() {
    List<String> all =
        treatment.reviews().stream()
            .filter(review -> !review.date().isAfter(on))
            .flatMap(review -> review.adverseEvents().stream())
            .map(HarmEvent::code)
            .map(Codes::words)
            .distinct()
            .toList();
    return all.isEmpty()
        ? Optional.empty()
        : Optional.of("Events during treatment: " + String.join(", ", all) + ".");
  }
}
