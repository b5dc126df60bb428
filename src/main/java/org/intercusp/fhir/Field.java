package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationComponentComponent;
import org.hl7.fhir.r4.model.Type;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** A member of an element and its place in an Observation, both ways. */
abstract class Field<T> {

  /** A component's value and where it stands. */
  record Found(@Nullable Type value, String path) {}

  /** Writes the member if the element has it; whether it had. */
  abstract boolean write(T element, Observation to, Canonicals canonicals);

  abstract void read(Observation from, Draft draft, Reading reading);

  static List<Found> found(Observation from, Concept code, Reading reading) {
    List<Found> found = new ArrayList<>();
    for (int i = 0; i < from.getComponent().size(); i++) {
      ObservationComponentComponent part = from.getComponent().get(i);
      if (code.isIn(part.getCode(), reading.canonicals())) {
        String at = reading.path(from) + ".component[" + i + "].value";
        found.add(new Found(part.hasValue() ? part.getValue() : null, at));
      }
    }
    return found;
  }

  static ObservationComponentComponent component(
      Observation to, Concept code, Canonicals canonicals) {
    return to.addComponent().setCode(code.concept(canonicals));
  }

  /** Adds to a list what the components with a code say. */
  static void collect(
      Observation from, Concept code, Kind<?> kind, Draft draft, String member, Reading reading) {
    draft.array(member);
    for (Found found : found(from, code, reading)) {
      JsonNode value = reading.value(kind, found.value(), found.path());
      if (value != null) {
        draft.add(member, value, found.path());
      }
    }
  }

  /** Puts a member that may stand in objects within, which are made only for what was found. */
  static void put(Draft draft, String member, @Nullable JsonNode value, String at) {
    String[] steps = member.split("/", -1);
    if (steps.length > 1 && value == null) {
      return;
    }
    Draft into = draft;
    for (int i = 0; i + 1 < steps.length; i++) {
      into = into.object(steps[i], at);
    }
    into.put(steps[steps.length - 1], value, at);
  }
}
