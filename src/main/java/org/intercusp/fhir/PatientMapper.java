package org.intercusp.fhir;

import org.hl7.fhir.r4.model.DateType;
import org.hl7.fhir.r4.model.Enumerations.AdministrativeGender;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Reference;

/** The patient as Patient, shared with whoever knows the patient already. */
final class PatientMapper {

  void toFhir(org.intercusp.treatment.Patient patient, Writing writing) {
    Patient resource = new Patient();
    resource.addName(Names.toFhir(patient.family(), patient.given()));
    resource.setBirthDateElement(new DateType(patient.birthDate().toString()));
    resource.setGender(AdministrativeGender.fromCode(patient.sex().code()));
    writing.addShared(resource, Profile.PATIENT, patient.identifier());
  }

  void fromFhir(
      Patient resource, Reference subject, String subjectPath, Draft draft, Reading reading) {
    String path = reading.path(resource);
    Names.identifier(subject, subjectPath, resource.getIdentifier(), draft, path);
    Names.fromFhir(resource.getName(), draft, path);
    draft.put("birthDate", resource.getBirthDateElement().getValueAsString(), path + ".birthDate");
    draft.put("sex", resource.getGenderElement().getValueAsString(), path + ".gender");
  }
}
