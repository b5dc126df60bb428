package org.intercusp.fhir;

import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Encounter.EncounterStatus;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.ServiceRequest;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.ReviewKind;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** A review visit as Encounter. R4 hangs it on the stage's review rhythm, a ServiceRequest. */
final class VisitMapper {

  private static final Kind<ReviewKind> KIND = Kind.coded(LocalSystem.REVIEW_KIND);

  void toFhir(Review review, Writing writing) {
    Encounter visit = new Encounter();
    visit.setStatus(EncounterStatus.FINISHED);
    visit.setClass_(Codes.hl7("v3-ActCode", "AMB", "ambulatory"));
    visit.addType((CodeableConcept) KIND.out().apply(review.kind(), writing.canonicals()));
    visit.setSubject(writing.patient());
    visit.addBasedOn(writing.to("ServiceRequest", Role.REVIEW_RHYTHM, review.stageId()));
    visit.addParticipant().setIndividual(new Reference().setDisplay(review.seenBy()));
    visit
        .getPeriod()
        .setStartElement(Writing.day(review.date()))
        .setEndElement(Writing.day(review.date()));
    visit.setServiceProvider(writing.clinic());
    writing.add(visit, Role.REVIEW, review.id());
  }

  void fromFhir(Encounter visit, Draft draft, Reading reading) {
    String path = reading.path(visit);
    draft.put("id", reading.id(visit), path + ".identifier");
    String start = visit.getPeriod().getStartElement().getValueAsString();
    draft.put("date", Kind.day(start), path + ".period.start");
    for (Reference reference : visit.getBasedOn()) {
      ServiceRequest rhythm = reading.resolve(reference, ServiceRequest.class);
      if (rhythm != null && reading.is(Codes.REVIEW_RHYTHM, rhythm.getCode())) {
        draft.put("stageId", stage(rhythm, reading), path + ".basedOn");
      }
    }
    draft.put(
        "seenBy",
        visit.getParticipantFirstRep().getIndividual().getDisplay(),
        path + ".participant[0].individual.display");
    draft.put("kind", (JsonNode) null, path + ".type");
    for (CodeableConcept type : visit.getType()) {
      JsonNode kind = KIND.in().apply(type, reading.canonicals());
      if (kind != null) {
        draft.put("kind", kind, path + ".type");
      }
    }
  }

  private static @Nullable String stage(ServiceRequest rhythm, Reading reading) {
    return rhythm.hasBasedOn() ? reading.idOf(rhythm.getBasedOnFirstRep()) : null;
  }
}
