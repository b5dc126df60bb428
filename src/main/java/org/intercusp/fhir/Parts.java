package org.intercusp.fhir;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.StudyModel;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/**
 * The elements of a treatment in the order of its file, each by the resource that stands for it.
 */
final class Parts {

  /** One element: the file's list it stands in, its id, and the resource that stands for it. */
  private record Part(String list, String id, String type, Role role) {
    Reference in(Writing writing) {
      return writing.to(type, role, id);
    }
  }

  private Parts() {}

  /** What supports the plan; the visits hang on it as outcomes. */
  static List<Reference> inOrder(Writing writing) {
    return all(writing.treatment())
        .filter(part -> !part.list().equals("reviews"))
        .map(part -> part.in(writing))
        .toList();
  }

  /** What stands for an element: the one in the list a pointer leads into, else any with its id. */
  static @Nullable Reference about(String id, String pointer, Writing writing) {
    Treatment treatment = writing.treatment();
    if (id.equals(treatment.id())) {
      return writing.plan();
    }
    List<Part> named = all(treatment).filter(part -> part.id().equals(id)).toList();
    return named.stream()
        .filter(part -> pointer.startsWith("/" + part.list() + "/"))
        .findFirst()
        .or(() -> named.stream().findFirst())
        .map(part -> part.in(writing))
        .orElse(null);
  }

  private static Stream<Part> all(Treatment treatment) {
    return Stream.of(
            of("bites", treatment.bites(), Bite::id, "Observation", Role.BITE),
            of(
                "appliances",
                treatment.appliances(),
                Appliance::id,
                "DeviceRequest",
                Role.PRESCRIPTION),
            of("stages", treatment.stages(), Stage::id, "CarePlan", Role.STAGE),
            of("reviews", treatment.reviews(), Review::id, "Encounter", Role.REVIEW),
            of("films", treatment.films(), Film::id, "Observation", Role.FILM),
            of("models", treatment.models(), StudyModel::id, "Observation", Role.MODEL),
            of("outcomes", treatment.outcomes(), Outcome::id, "Observation", Role.OUTCOME))
        .flatMap(parts -> parts);
  }

  private static <E> Stream<Part> of(
      String list, List<E> elements, Function<E, String> id, String type, Role role) {
    return elements.stream().map(element -> new Part(list, id.apply(element), type, role));
  }
}
