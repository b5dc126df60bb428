package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Procedure;
import org.hl7.fhir.r4.model.Procedure.ProcedureStatus;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.measure.Length;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Review;

/**
 * What is done at a review, as Procedure. A Procedure of R4 has no place for an amount, so an
 * Observation that is part of it carries one.
 */
final class Deeds {

  private static final Kind<Length> MM = Kind.quantity(Unit.MILLIMETRE);

  private Deeds() {}

  static Procedure procedure(Review review, Concept code, Writing writing) {
    Procedure procedure = new Procedure();
    procedure.setStatus(ProcedureStatus.COMPLETED);
    procedure.setCode(code.concept(writing.canonicals()));
    procedure.setSubject(writing.patient());
    procedure.setEncounter(writing.to("Encounter", Role.REVIEW, review.id()));
    procedure.setPerformed(Writing.day(review.date()));
    procedure.addBasedOn(writing.to("CarePlan", Role.STAGE, review.stageId()));
    return procedure;
  }

  /** The amount of a procedure added under the same names in the role given. */
  static void amount(
      Review review,
      Length amount,
      Concept code,
      Role of,
      Role role,
      Writing writing,
      String... names) {
    Observation observation = writing.observation(code);
    observation.setEffective(Writing.day(review.date()));
    observation.setValue(MM.out().apply(amount, writing.canonicals()));
    observation.addPartOf(writing.to("Procedure", of, names));
    writing.add(ReviewMapper.at(review, observation, writing), role, names);
  }

  static List<Procedure> at(Encounter visit, Concept code, Reading reading) {
    return reading.all(Procedure.class).stream()
        .filter(procedure -> reading.is(code, procedure.getCode()))
        .filter(procedure -> reading.leadsTo(procedure.getEncounter(), visit))
        .toList();
  }

  static void amount(Procedure of, Concept code, Draft draft, Reading reading) {
    draft.put("amount", (String) null, reading.path(of));
    for (Observation observation : reading.observations(code)) {
      boolean part =
          observation.getPartOf().stream().anyMatch(reference -> reading.leadsTo(reference, of));
      if (part) {
        String at = reading.path(observation) + ".value";
        Type value = observation.hasValue() ? observation.getValue() : null;
        draft.put("amount", reading.value(MM, value, at), at);
        return;
      }
    }
  }
}
