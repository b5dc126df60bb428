package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * The elements of a treatment in the order of its file, each by the resource that stands for it.
 */
final class Parts {

  /** One element: the file's list it stands in, its id, and what refers to its resource. */
  private record Part(String list, String id, Reference reference) {}

  private Parts() {}

  /** What supports the plan; the visits hang on it as outcomes. */
  static List<Reference> inOrder(Writing writing) {
    return all(writing).stream()
        .filter(part -> !part.list().equals("reviews"))
        .map(Part::reference)
        .toList();
  }

  /** What stands for an element: the one in the list a pointer leads into, else any with its id. */
  static @Nullable Reference about(String id, String pointer, Writing writing) {
    if (id.equals(writing.treatment().id())) {
      return writing.plan();
    }
    List<Part> named = all(writing).stream().filter(part -> part.id().equals(id)).toList();
    return named.stream()
        .filter(part -> pointer.startsWith("/" + part.list() + "/"))
        .findFirst()
        .or(() -> named.stream().findFirst())
        .map(Part::reference)
        .orElse(null);
  }

  private static List<Part> all(Writing writing) {
    Treatment treatment = writing.treatment();
    List<Part> parts = new ArrayList<>();
    treatment.bites().forEach(b -> add(parts, "bites", b.id(), "Observation", Role.BITE, writing));
    treatment
        .appliances()
        .forEach(
            a -> add(parts, "appliances", a.id(), "DeviceRequest", Role.PRESCRIPTION, writing));
    treatment.stages().forEach(s -> add(parts, "stages", s.id(), "CarePlan", Role.STAGE, writing));
    treatment
        .reviews()
        .forEach(r -> add(parts, "reviews", r.id(), "Encounter", Role.REVIEW, writing));
    treatment.films().forEach(f -> add(parts, "films", f.id(), "Observation", Role.FILM, writing));
    treatment
        .models()
        .forEach(m -> add(parts, "models", m.id(), "Observation", Role.MODEL, writing));
    treatment
        .outcomes()
        .forEach(o -> add(parts, "outcomes", o.id(), "Observation", Role.OUTCOME, writing));
    return parts;
  }

  private static void add(
      List<Part> parts, String list, String id, String type, Role role, Writing writing) {
    parts.add(new Part(list, id, writing.to(type, role, id)));
  }
}
