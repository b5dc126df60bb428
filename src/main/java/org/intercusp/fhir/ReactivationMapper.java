package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Procedure;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Review.Reactivation;

/** A re-activation as Procedure, for the new bite where one was registered. */
final class ReactivationMapper {

  void toFhir(Review review, Writing writing) {
    Reactivation reactivation = review.reactivation();
    if (reactivation == null) {
      return;
    }
    Procedure procedure = Deeds.procedure(review, Codes.REACTIVATION, writing);
    if (reactivation.biteId() != null) {
      procedure.addReasonReference(writing.to("Observation", Role.BITE, reactivation.biteId()));
    }
    writing.add(procedure, Role.REACTIVATION, review.id());
    Deeds.amount(
        review,
        reactivation.amount(),
        Codes.REACTIVATION_AMOUNT,
        Role.REACTIVATION,
        Role.REACTIVATION_AMOUNT,
        writing,
        review.id());
  }

  void fromFhir(Encounter visit, Draft review, Reading reading) {
    for (Procedure procedure : Deeds.at(visit, Codes.REACTIVATION, reading)) {
      String path = reading.path(procedure);
      Draft draft = review.object("reactivation", path);
      Deeds.amount(procedure, Codes.REACTIVATION_AMOUNT, draft, reading);
      if (procedure.hasReasonReference()) {
        draft.put(
            "biteId",
            reading.idOf(procedure.getReasonReferenceFirstRep()),
            path + ".reasonReference[0]");
      }
      return;
    }
  }
}
