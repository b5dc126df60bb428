package org.intercusp.fhir;

import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Property;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.stage.StageDates;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;
import tools.jackson.databind.node.ObjectNode;

/**
 * Reads Observations that others made of what a review holds, such as an overjet, each as the
 * members of a review in the treatment file. Every one is read for itself: what one of them says
 * badly keeps none of the others back.
 */
public final class Sightings {

  /** What makes an Observation one of a value on a day; the rest of it has no place in the file. */
  private static final Set<String> PLACED =
      Set.of(
          "id",
          "meta",
          "text",
          "implicitRules",
          "language",
          "status",
          "category",
          "code",
          "subject",
          "effective[x]",
          "value[x]",
          "component");

  private final Canonicals canonicals;

  public Sightings(Canonicals canonicals) {
    this.canonicals = canonicals;
  }

  /**
   * One Observation in the file's terms.
   *
   * @param day when it was true
   * @param members of a review
   * @param beyond what it says that has no place there, by FHIRPath from the Observation
   */
  public record Sighting(LocalDate day, ObjectNode members, List<Unplaced> beyond) {
    public Sighting {
      beyond = List.copyOf(beyond);
    }
  }

  /** The codes of what a review holds: system and code. */
  public List<Identifier> codes() {
    return ReviewMapper.seen().stream()
        .map(panel -> panel.code())
        .map(code -> new Identifier(code.system(canonicals), code.code()))
        .toList();
  }

  /** Whether an Observation is of something a review holds. */
  public boolean concerns(Observation observation) {
    return ReviewMapper.seen().stream()
        .anyMatch(panel -> panel.code().isIn(observation.getCode(), canonicals));
  }

  /** Reads one; empty where it has no day, or no value of the kind and unit that the file takes. */
  public Optional<Sighting> read(Observation observation) {
    Bundle alone = new Bundle();
    alone.addEntry().setResource(observation);
    Reading reading = new Reading(new BundleIndex(alone), List.of(observation), canonicals);
    Draft draft = new Draft("");
    Dated.put(draft, "date", observation, "");
    String date = draft.json().path("date").asString("");
    for (Panel<Review> panel : ReviewMapper.seen()) {
      if (panel.code().isIn(observation.getCode(), canonicals)) {
        panel.read(observation, draft, reading);
      }
    }
    ObjectNode members = draft.json();
    members.remove("date");
    if (!reading.faults().isEmpty() || members.isEmpty()) {
      return Optional.empty();
    }
    try {
      return Optional.of(new Sighting(LocalDate.parse(date), members, beyond(observation)));
    } catch (DateTimeException e) {
      return Optional.empty();
    }
  }

  private static List<Unplaced> beyond(Observation observation) {
    List<Unplaced> beyond = new ArrayList<>();
    for (Property property : observation.children()) {
      if (!PLACED.contains(property.getName())) {
        String name = property.getName().replace("[x]", "");
        List<Base> values = property.getValues();
        for (int i = 0; i < values.size(); i++) {
          String at = property.getMaxCardinality() > 1 ? name + "[" + i + "]" : name;
          beyond.add(new Unplaced(at, Strays.shown(values.get(i))));
        }
      }
    }
    return beyond;
  }

  /**
   * The stage a visit on a day belongs to: the one that runs, else the last one begun before; empty
   * before the first.
   */
  public static Optional<String> stage(Treatment treatment, LocalDate day) {
    return StageDates.on(treatment, day)
        .or(
            () ->
                StageDates.of(treatment).stream()
                    .map(Reckoned::result)
                    .flatMap(Optional::stream)
                    .filter(dates -> !day.isBefore(dates.start()))
                    .reduce((first, second) -> second))
        .map(dates -> dates.stage().id());
  }
}
