package org.intercusp.web.pages.entry;

import static org.intercusp.web.pages.entry.Field.length;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.intercusp.web.pages.entry.Field.Kind;
import org.intercusp.web.pages.entry.Sheet.Section;

/** The form of a construction bite: every member of {@code bite}. */
final class BiteSheet {

  private BiteSheet() {}

  static Sheet of(LocalDate today) {
    return new Sheet(
        "Record a construction bite",
        "bites",
        "bite",
        "recordedOn",
        List.of(record(), readings(), incisors(), heights(), sideways()),
        List.of(),
        standIns(today));
  }

  private static Section record() {
    return new Section(
        "The record",
        "",
        List.of(
            Field.of(Kind.TEXT, "id", "Id", "Proposed; no other bite may have it.").asNeeded(),
            Field.of(Kind.DATE, "recordedOn", "Registered on", "").asNeeded()));
  }

  private static Section readings() {
    return new Section(
        "Readings of the sliding scale",
        "One zero for all four, forward positive.",
        List.of(
            length("retrudedReading", "Jaw held back", "Without it the slide is taken as 0."),
            length("habitualReading", "Habitual", "").asNeeded(),
            length("registeredReading", "Registered", "").asNeeded(),
            length("maximumReading", "As far forward as it goes", "").asNeeded()));
  }

  private static Section incisors() {
    return new Section(
        "Incisors",
        "",
        List.of(
            length("overjetHabitual", "Overjet, habitual", "Reverse overjet negative.").asNeeded(),
            length("overbiteHabitual", "Overbite, habitual", "Open bite negative.").asNeeded(),
            length("overjetInBite", "Overjet in the bite", "Reverse overjet negative.").asNeeded(),
            length("incisalClearance", "Clear between the incisors in the bite", "").asNeeded(),
            length("upperIncisorHeight", "Upper incisor height", "Gingival margin to edge.")
                .asNeeded(),
            length("lowerIncisorHeight", "Lower incisor height", "Gingival margin to edge.")
                .asNeeded()));
  }

  private static Section heights() {
    return new Section(
        "Behind",
        "Vertical, in the bite. What is registered wins over what is predicted.",
        List.of(
            length("premolarClearance", "Clear between the first premolars", ""),
            length("molarClearance", "Clear between the first molars", ""),
            length("restSpace", "Freeway space at rest", "")));
  }

  private static Section sideways() {
    return new Section(
        "Sideways and comfort",
        "",
        List.of(
            length(
                "lowerMidlineHabitual",
                "Lower midline, habitual",
                "Towards the patient's right positive."),
            length(
                "lowerMidlineInBite",
                "Lower midline in the bite",
                "Towards the patient's right positive."),
            Field.of(Kind.FLAG, "crossbiteInBite", "Crossbite in the bite", ""),
            Field.of(Kind.FLAG, "comfortable", "Held comfortably", "")));
  }

  private static Map<String, Object> standIns(LocalDate today) {
    return Map.ofEntries(
        Map.entry("id", "being-typed"),
        Map.entry("recordedOn", today.toString()),
        Map.entry("habitualReading", 0),
        Map.entry("registeredReading", 6),
        Map.entry("maximumReading", 12),
        Map.entry("overjetHabitual", 8),
        Map.entry("overbiteHabitual", 4),
        Map.entry("overjetInBite", 2),
        Map.entry("incisalClearance", 2),
        Map.entry("upperIncisorHeight", 9),
        Map.entry("lowerIncisorHeight", 8));
  }
}
