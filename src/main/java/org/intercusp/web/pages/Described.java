package org.intercusp.web.pages;

import org.intercusp.treatment.TreatmentSchema;
import org.intercusp.treatment.shape.Numbers;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * A place of the record as the published schema describes it, which alone knows the unit of a bare
 * number. Where the schema has no such place, it says nothing.
 */
record Described(JsonNode schema) {

  private static final JsonNode WHOLE =
      JsonMapper.builder().build().readTree(TreatmentSchema.text());

  /** The record itself. */
  static Described record() {
    return new Described(WHOLE);
  }

  /** A place by its path from the top, entries of lists by whatever they are told by. */
  static Described at(String path) {
    Described place = record();
    for (String step : path.substring(1).split("/", -1)) {
      place = place.isList() ? place.entry() : place.member(step);
    }
    return place;
  }

  Described member(String name) {
    return new Described(meant(schema.path("properties").path(name)));
  }

  /** Any entry of a list. */
  Described entry() {
    return new Described(meant(schema.path("items")));
  }

  /** A number as people write it: with its unit where it has one. */
  String number(String digits) {
    return Numbers.unit(schema).map(unit -> unit.behind(digits)).orElse(digits);
  }

  private boolean isList() {
    return schema.has("items");
  }

  private static JsonNode meant(JsonNode schema) {
    String to = schema.path("$ref").asString("");
    return to.startsWith("#/") ? WHOLE.at(to.substring(1)) : schema;
  }
}
