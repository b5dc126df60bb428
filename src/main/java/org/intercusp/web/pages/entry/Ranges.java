package org.intercusp.web.pages.entry;

import org.intercusp.treatment.TreatmentSchema;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The allowed ranges as the published schema has them, so that they are written down once. */
final class Ranges {

  private final JsonNode definitions =
      JsonMapper.builder().build().readTree(TreatmentSchema.text()).path("$defs");

  /** The range of a number in words, empty for anything else. */
  String of(String shape, Field field) {
    if (!field.numeric()) {
      return "";
    }
    JsonNode member = definitions.path(shape);
    for (String step : field.path().split("/", -1)) {
      member = member.path("properties").path(step);
    }
    if (!member.has("minimum")) {
      throw new IllegalStateException(shape + " has no range for " + field.path());
    }
    return "%s to %s%s"
        .formatted(
            member.path("minimum").decimalValue().toPlainString(),
            member.path("maximum").decimalValue().toPlainString(),
            field.unit().isEmpty() ? "" : " " + field.unit());
  }
}
