package org.intercusp.treatment.sheet;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.treatment.shape.Numbers;
import tools.jackson.databind.JsonNode;

/** What may stand in a cell, in words, from the schema of its member. */
final class SheetWords {

  private SheetWords() {}

  static String of(CellKind kind, JsonNode schema) {
    return switch (kind) {
      case NUMBER -> number(schema);
      case FLAG -> "true or false";
      case TEXT -> text(schema);
      case TEXTS -> "several with | between: " + text(schema) + "; " + CellKind.NONE + " for none";
    };
  }

  private static String number(JsonNode schema) {
    String most = schema.path("maximum").asString();
    return schema.path("minimum").asString()
        + " to "
        + Numbers.unit(schema).map(unit -> unit.behind(most)).orElse(most);
  }

  private static String text(JsonNode schema) {
    if (schema.has("enum")) {
      List<String> words = new ArrayList<>();
      schema.path("enum").forEach(word -> words.add(word.asString()));
      return String.join(", ", words);
    }
    if (schema.path("format").asString("").equals("date")) {
      return "date, year-month-day";
    }
    if (schema.path("pattern").asString("").startsWith("^([1-4][1-8]")) {
      return "tooth, ISO 3950";
    }
    return "text";
  }
}
