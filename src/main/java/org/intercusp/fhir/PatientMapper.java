package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.DateType;
import org.hl7.fhir.r4.model.Enumerations.AdministrativeGender;
import org.hl7.fhir.r4.model.Patient;

/** The patient as Patient, shared with whoever knows the patient already. */
final class PatientMapper {

  void toFhir(org.intercusp.treatment.Patient patient, Writing writing) {
    Patient resource = new Patient();
    resource.addName(Names.toFhir(patient.family(), patient.given()));
    resource.setBirthDateElement(new DateType(patient.birthDate().toString()));
    resource.setGender(AdministrativeGender.fromCode(patient.sex().code()));
    writing.addShared(resource, Profile.PATIENT, patient.identifier());
  }

  void fromFhir(Patient resource, Draft draft, Reading reading) {
    String path = reading.path(resource);
    Names.identifier(own(resource.getIdentifier()), draft, path);
    Names.fromFhir(resource.getName(), draft, path);
    draft.put("birthDate", resource.getBirthDateElement().getValueAsString(), path + ".birthDate");
    draft.put("sex", resource.hasGender() ? resource.getGender().toCode() : null, path + ".gender");
  }

  // A server may have put numbers of its own in front.
  private static List<org.hl7.fhir.r4.model.Identifier> own(
      List<org.hl7.fhir.r4.model.Identifier> identifiers) {
    return identifiers.stream().filter(i -> i.hasSystem() && i.hasValue()).toList();
  }
}
