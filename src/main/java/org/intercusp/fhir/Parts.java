package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.treatment.Treatment;

/** The elements of a treatment in the order of its file. */
final class Parts {

  private Parts() {}

  static List<Reference> inOrder(Writing writing) {
    Treatment treatment = writing.treatment();
    List<Reference> parts = new ArrayList<>();
    treatment.bites().forEach(b -> parts.add(writing.to("Observation", Role.BITE, b.id())));
    treatment
        .appliances()
        .forEach(a -> parts.add(writing.to("DeviceRequest", Role.PRESCRIPTION, a.id())));
    treatment.stages().forEach(s -> parts.add(writing.to("CarePlan", Role.STAGE, s.id())));
    treatment.films().forEach(f -> parts.add(writing.to("Observation", Role.FILM, f.id())));
    treatment.models().forEach(m -> parts.add(writing.to("Observation", Role.MODEL, m.id())));
    treatment.outcomes().forEach(o -> parts.add(writing.to("Observation", Role.OUTCOME, o.id())));
    return parts;
  }
}
