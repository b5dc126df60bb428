package org.intercusp.fhir;

import java.time.LocalDate;
import org.hl7.fhir.r4.model.Appointment;
import org.hl7.fhir.r4.model.Appointment.AppointmentStatus;
import org.hl7.fhir.r4.model.Appointment.ParticipationStatus;
import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Period;
import org.intercusp.treatment.Review;

/** The next review as proposed Appointment: a day asked for, no time booked. */
final class NextReviewMapper {

  void toFhir(Review review, Writing writing) {
    LocalDate next = review.nextReviewOn();
    if (next == null) {
      return;
    }
    Appointment resource = new Appointment();
    resource.setStatus(AppointmentStatus.PROPOSED);
    resource.addBasedOn(writing.to("ServiceRequest", Role.REVIEW_RHYTHM, review.stageId()));
    // R4 lets an Appointment support itself with anything: here the visit that asked for it.
    resource.addSupportingInformation(writing.to("Encounter", Role.REVIEW, review.id()));
    resource.addRequestedPeriod(
        new Period().setStartElement(Writing.day(next)).setEndElement(Writing.day(next)));
    resource
        .addParticipant()
        .setActor(writing.patient())
        .setStatus(ParticipationStatus.NEEDSACTION);
    writing.add(resource, Role.NEXT_REVIEW, review.id());
  }

  void fromFhir(Encounter visit, Draft review, Reading reading) {
    for (Appointment appointment : reading.all(Appointment.class)) {
      boolean from =
          appointment.getSupportingInformation().stream()
              .anyMatch(reference -> reading.leadsTo(reference, visit));
      if (from && appointment.hasRequestedPeriod()) {
        String day = appointment.getRequestedPeriodFirstRep().getStartElement().getValueAsString();
        review.put(
            "nextReviewOn", Kind.day(day), reading.path(appointment) + ".requestedPeriod[0].start");
      }
    }
  }
}
