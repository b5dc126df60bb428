package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.AllergyIntolerance;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.intercusp.treatment.Patient;
import tools.jackson.databind.node.JsonNodeFactory;

/** An allergy as AllergyIntolerance; that none is known is said with a code. */
final class AllergyMapper {

  void toFhir(Patient patient, Writing writing) {
    List<String> allergies = patient.allergies();
    if (allergies == null) {
      return;
    }
    if (allergies.isEmpty()) {
      add(Codes.NONE_KNOWN.concept(writing.canonicals()), 0, writing);
    }
    for (int i = 0; i < allergies.size(); i++) {
      add(concept(allergies.get(i), writing.canonicals()), i + 1, writing);
    }
  }

  private static void add(CodeableConcept code, int ordinal, Writing writing) {
    AllergyIntolerance resource = new AllergyIntolerance();
    resource.setClinicalStatus(Codes.hl7Concept("allergyintolerance-clinical", "active", "Active"));
    resource.setVerificationStatus(
        Codes.hl7Concept("allergyintolerance-verification", "unconfirmed", "Unconfirmed"));
    resource.setCode(code);
    resource.setPatient(writing.patient());
    writing.add(resource, Role.ALLERGY, Integer.toString(ordinal));
  }

  private static CodeableConcept concept(String allergy, Canonicals canonicals) {
    return switch (allergy) {
      case "acrylic" -> Codes.ACRYLIC.concept(canonicals);
      case "nickel" -> Codes.NICKEL.concept(canonicals);
      default -> new CodeableConcept().setText(allergy);
    };
  }

  void fromFhir(Draft patient, Reading reading) {
    for (AllergyIntolerance resource : reading.all(AllergyIntolerance.class)) {
      CodeableConcept code = resource.getCode();
      patient.array("allergies");
      if (reading.is(Codes.NONE_KNOWN, code)) {
        continue;
      }
      String allergy = code.getText();
      for (Concept known : List.of(Codes.ACRYLIC, Codes.NICKEL)) {
        if (reading.is(known, code)) {
          allergy = known.code();
        }
      }
      String path = reading.path(resource) + ".code";
      if (allergy == null && code.hasCoding()) {
        allergy = code.getCodingFirstRep().getDisplay();
      }
      if (allergy == null) {
        reading.fault("missing-member", path, "", "an allergy without a code or text");
      } else {
        patient.add("allergies", JsonNodeFactory.instance.stringNode(allergy), path);
      }
    }
  }
}
