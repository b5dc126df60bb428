package org.intercusp.summary.content;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.rules.Examination;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Hygiene;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;

/** What a dentist should watch between the orthodontist's visits, with what is known of each. */
final class Watch {

  private final Treatment treatment;
  private final Optional<Review> last;
  private final Examination examination;

  Watch(Course course, Examination examination) {
    this.treatment = course.treatment();
    this.last = course.lastReview();
    this.examination = examination;
  }

  List<String> items() {
    List<String> items = new ArrayList<>();
    items.add("Hygiene: " + hygiene() + ". Plaque about clasps and bow; gum margins.");
    items.add("Caries: " + caries() + ". White spots on clasped teeth.");
    items.add("Lower incisors: " + incisors() + ". Tipping, mobility, recession.");
    items.add("Jaw joint: " + joint() + ". Opening below 35 mm, pain or locking.");
    items.add("Allergy: " + Lines.list(treatment.patient().allergies()) + ".");
    events().ifPresent(items::add);
    return items;
  }

  private String hygiene() {
    Hygiene seen = last.map(Review::hygiene).orElse(null);
    Hygiene known = seen == null ? treatment.diagnosis().hygiene() : seen;
    return known == null ? Lines.NOT_RECORDED : known.code();
  }

  private String caries() {
    Boolean active = treatment.diagnosis().activeCaries();
    if (active == null) {
      return Lines.NOT_RECORDED + " at the start";
    }
    return active ? "active at the start" : "none active at the start";
  }

  private String incisors() {
    return examination.figures().stream()
        .filter(figure -> figure.name().equals("l1-md") && figure.value() != null)
        .reduce((first, second) -> second)
        .map(figure -> "L1-Md " + shown(figure) + " on the last film")
        .orElse("no film measured");
  }

  private static String shown(Figure figure) {
    Value value = figure.value();
    return (value == null ? "" : value.shown()) + "° (usual " + figure.usual() + ")";
  }

  private String joint() {
    List<String> seen = last.map(Review::jointSigns).map(Lines::codes).orElse(null);
    List<String> start = Lines.codes(treatment.diagnosis().jointSigns());
    String opening =
        last.map(Review::maximumOpening)
            .map(length -> ", opening " + org.intercusp.summary.wording.Numbers.of(length))
            .orElse("");
    return (seen == null ? Lines.list(start) + " at the start" : Lines.list(seen)) + opening;
  }

  private Optional<String> events() {
    List<String> all =
        treatment.reviews().stream()
            .flatMap(review -> review.adverseEvents().stream())
            .map(HarmEvent::code)
            .map(HarmEvent.Code::code)
            .distinct()
            .toList();
    return all.isEmpty()
        ? Optional.empty()
        : Optional.of("Events during treatment: " + String.join(", ", all) + ".");
  }
}
