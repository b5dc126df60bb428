package org.intercusp.fhir;

import java.util.Locale;
import java.util.Objects;
import java.util.Optional;
import org.hl7.fhir.r4.model.AdverseEvent;
import org.hl7.fhir.r4.model.AdverseEvent.AdverseEventActuality;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.jspecify.annotations.Nullable;

/** Harm that is serious or of which an appliance is suspected, as AdverseEvent. */
final class AdverseEventMapper {

  void toFhir(HarmEvent harm, Review review, String ordinal, Writing writing) {
    AdverseEvent event = new AdverseEvent();
    event.setActuality(AdverseEventActuality.ACTUAL);
    event.setEvent(HarmMapper.code(harm, writing.canonicals()));
    event.setSubject(writing.patient());
    event.setEncounter(writing.to("Encounter", Role.REVIEW, review.id()));
    event.setDateElement(Writing.day(harm.onsetOn()));
    event.setDetectedElement(Writing.day(review.date()));
    event.addResultingCondition(writing.to("Condition", Role.HARM, review.id(), ordinal));
    // The codes as R4 writes them; the current terminology has them in lower case.
    event.setSeriousness(
        harm.serious()
            ? Codes.hl7Concept("adverse-event-seriousness", "Serious", "Serious")
            : Codes.hl7Concept("adverse-event-seriousness", "Non-serious", "Non-serious"));
    event.setSeverity(severity(harm));
    event.setRecorder(writing.clinician());
    if (harm.suspectedAppliance()) {
      event.addSuspectEntity().setInstance(suspect(review, writing));
    }
    writing.add(event, Role.ADVERSE_EVENT, review.id(), ordinal);
  }

  private static CodeableConcept severity(HarmEvent harm) {
    return switch (harm.severity()) {
      case MILD -> Codes.hl7Concept("adverse-event-severity", "mild", "Mild");
      case MODERATE -> Codes.hl7Concept("adverse-event-severity", "moderate", "Moderate");
      case SEVERE -> Codes.hl7Concept("adverse-event-severity", "severe", "Severe");
    };
  }

  // The file says that an appliance is suspected, not which: the stage's is the one worn.
  private static Reference suspect(Review review, Writing writing) {
    Optional<String> worn =
        writing.treatment().stages().stream()
            .filter(stage -> stage.id().equals(review.stageId()))
            .map(Stage::applianceId)
            .filter(Objects::nonNull)
            .findFirst();
    return worn.map(id -> writing.to("Device", Role.APPLIANCE, id))
        .orElseGet(() -> new Reference().setDisplay("appliance"));
  }

  void fromFhir(@Nullable AdverseEvent event, Condition condition, Draft harm, Reading reading) {
    if (event == null) {
      String path = reading.path(condition);
      harm.put("serious", false, path);
      harm.put("suspectedAppliance", false, path);
      return;
    }
    String path = reading.path(event);
    boolean serious =
        event.getSeriousness().getCoding().stream()
            .anyMatch(
                coding ->
                    coding.hasCode()
                        && coding.getCode().toLowerCase(Locale.ROOT).startsWith("serious"));
    harm.put("serious", serious, path + ".seriousness");
    boolean suspected = event.hasSuspectEntity();
    harm.put("suspectedAppliance", suspected, suspected ? path + ".suspectEntity[0]" : path);
  }
}
