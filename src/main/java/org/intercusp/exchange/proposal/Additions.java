package org.intercusp.exchange.proposal;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.TreeMap;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.exchange.proposal.Comparing.Part;
import org.intercusp.exchange.proposal.Proposal.Change;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.records.Beyond;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.Likeness;
import org.intercusp.exchange.records.Origin;
import org.intercusp.fhir.Sightings;
import org.intercusp.fhir.Sightings.Sighting;
import org.intercusp.treatment.Treatment;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * Where Observations that others made go in a treatment file: to the review of their day, to the
 * diagnosis of its day, else to a review that is not there yet. What the file asks of such a review
 * beyond them is never made up: whoever accepts has to say it.
 */
final class Additions {

  /** What a review can't be without, as members from it on. */
  private static final List<String> ASKED =
      List.of("overjet", "overbite", "molarRelation/right", "molarRelation/left");

  /** Characters of an id (FHIR R4, 2.24.0.1, id). */
  private static final int LONGEST_ID = 64;

  private final Recipient recipient;
  private final Treatment treatment;
  private final JsonNode file;
  private final Likeness likeness;
  private final List<Part> parts = new ArrayList<>();
  private final List<Beyond> beyond = new ArrayList<>();

  /** One Observation, read. */
  private record Seen(Observation observation, Sighting sighting, Origin origin) {
    String key(String member) {
      String value = Placing.canonical(sighting.members().get(member));
      return "seen|"
          + origin.address()
          + "|"
          + sighting.day()
          + "|"
          + member
          + "|"
          + Likeness.digest(value);
    }

    List<String> members() {
      return List.copyOf(sighting.members().propertyNames());
    }

    List<Beyond> beyond() {
      return sighting.beyond().stream()
          .map(one -> new Beyond(origin.address() + "." + one.expression(), one.value()))
          .toList();
    }
  }

  /**
   * Additions to a file.
   *
   * @param treatment the newest version
   * @param file the same as its file has it
   */
  Additions(Recipient recipient, Treatment treatment, JsonNode file, Likeness likeness) {
    this.recipient = recipient;
    this.treatment = treatment;
    this.file = file;
    this.likeness = likeness;
  }

  List<Part> parts() {
    return parts;
  }

  /** What has no place. */
  List<Beyond> beyond() {
    return beyond;
  }

  Additions of(List<Observation> strangers, Sightings sightings) {
    Map<LocalDate, List<Seen>> byDay = new TreeMap<>();
    for (Observation one : strangers) {
      Origin origin = Origin.of(one, likeness, Ledger.NONE);
      Optional<Sighting> read = sightings.read(one);
      if (read.isEmpty()) {
        nowhere(origin, "no day, or a value of another kind or unit");
      } else {
        byDay
            .computeIfAbsent(read.get().day(), day -> new ArrayList<>())
            .add(new Seen(one, read.get(), origin));
      }
    }
    byDay.forEach(this::place);
    return this;
  }

  private void nowhere(Origin origin, String why) {
    beyond.add(new Beyond(origin.address(), why));
  }

  private void place(LocalDate day, List<Seen> seen) {
    Optional<String> review =
        treatment.reviews().stream()
            .filter(one -> one.date().equals(day))
            .map(one -> "/reviews/" + one.id())
            .findFirst();
    if (review.isPresent()) {
      seen.forEach(one -> corrections(review.get(), one));
    } else if (day.equals(treatment.diagnosis().assessedOn())) {
      seen.forEach(one -> corrections("/diagnosis", one));
    } else {
      Optional<String> stage = Sightings.stage(treatment, day);
      if (stage.isPresent()) {
        review(day, stage.get(), seen);
      } else {
        seen.forEach(one -> nowhere(one.origin(), "no stage of the treatment has begun by then"));
      }
    }
  }

  private void corrections(String element, Seen one) {
    List<Change> changes = new ArrayList<>();
    for (String member : one.members()) {
      String path = element + "/" + member;
      JsonNode before = Placing.at(file, path).orElse(null);
      changes.add(
          new Change(
              path,
              before,
              one.sighting().members().get(member),
              List.of(one.key(member)),
              List.of()));
    }
    parts.add(new Part(one.origin().address(), changes, one.beyond(), List.of(one.origin())));
  }

  private void review(LocalDate day, String stage, List<Seen> seen) {
    List<Seen> newestFirst =
        seen.stream().sorted(Comparator.comparing(Additions::changed).reversed()).toList();
    String name = recipient.name();
    String room = name.substring(0, Math.min(name.length(), LONGEST_ID - 11));
    ObjectNode review = JsonNodeFactory.instance.objectNode();
    review.put("id", room + "-" + day).put("date", day.toString()).put("stageId", stage);
    String by = seenBy(newestFirst);
    review.put("seenBy", by).put("kind", "planned");
    List<String> keys = new ArrayList<>();
    List<Beyond> rest = new ArrayList<>();
    for (Seen one : newestFirst) {
      for (String member : one.members()) {
        keys.add(one.key(member));
        JsonNode value = one.sighting().members().get(member);
        if (review.has(member)) {
          rest.add(new Beyond(one.origin().address() + ".value", Placing.canonical(value)));
        } else {
          review.set(member, value);
        }
      }
      one.beyond().stream().filter(each -> !isPerformer(each, by)).forEach(rest::add);
    }
    List<String> lacking =
        ASKED.stream().filter(path -> Placing.at(review, "/" + path).isEmpty()).toList();
    Change change = new Change("/reviews/" + room + "-" + day, null, review, keys, lacking);
    parts.add(
        new Part(
            "visit of " + day,
            List.of(change),
            rest,
            newestFirst.stream().map(Seen::origin).toList()));
  }

  /** Whether it is who measured, which the new review says. */
  private static boolean isPerformer(Beyond one, String seenBy) {
    return one.path().contains(".performer[") && one.value().equals(seenBy);
  }

  private String seenBy(List<Seen> seen) {
    return seen.stream()
        .flatMap(one -> one.observation().getPerformer().stream())
        .map(one -> one.getDisplay())
        .filter(Objects::nonNull)
        .filter(display -> !display.isBlank())
        .findFirst()
        .orElse(recipient.title());
  }

  private static Instant changed(Seen one) {
    Instant changed = one.origin().changedAt();
    return changed == null ? Instant.EPOCH : changed;
  }
}
