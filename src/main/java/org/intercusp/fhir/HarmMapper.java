package org.intercusp.fhir;

import java.util.Map;
import org.hl7.fhir.r4.model.AdverseEvent;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Encounter;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Review;
import org.jspecify.annotations.Nullable;

/**
 * Harm as a Condition of the patient. An AdverseEvent says of it what a Condition cannot: that it
 * is serious, or that an appliance is suspected.
 */
final class HarmMapper {

  private static final Kind<HarmEvent.Code> CODE = Kind.coded(LocalSystem.HARM_EVENT);
  private static final Kind<HarmEvent.Grade> GRADE = Kind.coded(LocalSystem.HARM_GRADE);

  private static final Map<HarmEvent.Code, Concept> PUBLISHED =
      Map.of(
          HarmEvent.Code.ULCER, Codes.ULCER,
          HarmEvent.Code.JOINT, Codes.JOINT_DISEASE,
          HarmEvent.Code.ROOT_RESORPTION, Codes.RESORPTION);

  private final AdverseEventMapper events = new AdverseEventMapper();

  void toFhir(Review review, Writing writing) {
    for (int i = 0; i < review.adverseEvents().size(); i++) {
      HarmEvent harm = review.adverseEvents().get(i);
      String ordinal = Integer.toString(i + 1);
      Condition condition = new Condition();
      condition.setClinicalStatus(Codes.hl7Concept("condition-clinical", "active", "Active"));
      condition.setVerificationStatus(
          Codes.hl7Concept("condition-ver-status", "confirmed", "Confirmed"));
      condition.addCategory(
          Codes.hl7Concept("condition-category", "encounter-diagnosis", "Encounter Diagnosis"));
      condition.setCode(code(harm, writing.canonicals()));
      condition.setSeverity(
          (CodeableConcept) GRADE.out().apply(harm.severity(), writing.canonicals()));
      condition.setSubject(writing.patient());
      condition.setEncounter(writing.to("Encounter", Role.REVIEW, review.id()));
      condition.setOnset(Writing.day(harm.onsetOn()));
      condition.setRecordedDateElement(Writing.day(review.date()));
      if (harm.action() != null) {
        condition.addNote().setText(harm.action());
      }
      writing.add(condition, Role.HARM, review.id(), ordinal);
      if (harm.serious() || harm.suspectedAppliance()) {
        events.toFhir(harm, review, ordinal, writing);
      }
    }
  }

  static CodeableConcept code(HarmEvent harm, Canonicals canonicals) {
    CodeableConcept code = (CodeableConcept) CODE.out().apply(harm.code(), canonicals);
    Concept published = PUBLISHED.get(harm.code());
    if (published != null) {
      code.addCoding(published.coding(canonicals));
    }
    return code;
  }

  void fromFhir(Encounter visit, Draft review, Reading reading) {
    String system = reading.canonicals().of(LocalSystem.HARM_EVENT);
    for (Condition condition : reading.all(Condition.class)) {
      boolean harm =
          Kind.codeIn(condition.getCode(), system) != null
              && reading.leadsTo(condition.getEncounter(), visit);
      if (!harm) {
        continue;
      }
      String path = reading.path(condition);
      Draft draft = review.element("adverseEvents", path);
      draft.put("code", reading.value(CODE, condition.getCode(), path + ".code"), path + ".code");
      CodeableConcept grade = condition.hasSeverity() ? condition.getSeverity() : null;
      String at = path + ".severity";
      draft.put("severity", reading.value(GRADE, grade, at), at);
      if (condition.hasOnsetDateTimeType()) {
        String onset = condition.getOnsetDateTimeType().getValueAsString();
        draft.put("onsetOn", Kind.day(onset), path + ".onset");
      }
      if (condition.hasNote()) {
        draft.put("action", condition.getNoteFirstRep().getText(), path + ".note[0].text");
      }
      events.fromFhir(event(condition, reading), condition, draft, reading);
    }
  }

  private static @Nullable AdverseEvent event(Condition condition, Reading reading) {
    return reading.all(AdverseEvent.class).stream()
        .filter(
            event ->
                event.getResultingCondition().stream()
                    .anyMatch(reference -> reading.leadsTo(reference, condition)))
        .findFirst()
        .orElse(null);
  }
}
