package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Practitioner;
import org.hl7.fhir.r4.model.PractitionerRole;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.treatment.Person;

/**
 * A clinician or referrer as Practitioner, and as PractitionerRole at the organisation named. A
 * clinician without one works at the clinic.
 */
final class PersonMapper {

  void toFhir(Person person, Role role, Concept code, Writing writing) {
    Practitioner practitioner = new Practitioner();
    practitioner.addName(Names.toFhir(person.family(), person.given()));
    writing.addShared(practitioner, Profile.PRACTITIONER, person.identifier());
    PractitionerRole resource = new PractitionerRole();
    resource.setActive(true);
    resource.setPractitioner(Names.named("Practitioner", person.identifier()));
    resource.addCode(code.concept(writing.canonicals()));
    if (person.organisation() != null) {
      resource.setOrganization(new Reference().setDisplay(person.organisation()));
    } else if (role == Role.CLINICIAN) {
      resource.setOrganization(writing.clinic());
    }
    writing.add(resource, role);
  }

  void fromFhir(PractitionerRole resource, Draft root, String member, Reading reading) {
    Practitioner practitioner = reading.resolve(resource.getPractitioner(), Practitioner.class);
    if (practitioner == null) {
      String path = reading.path(resource) + ".practitioner";
      reading.fault("unknown-reference", path, member, "no such Practitioner in the Bundle");
      return;
    }
    String named = reading.path(resource) + ".practitioner";
    Draft draft = fromFhir(practitioner, resource.getPractitioner(), named, root, member, reading);
    Reference organization = resource.getOrganization();
    String at = reading.path(resource) + ".organization";
    if (organization.hasDisplay()) {
      draft.put("organisation", organization.getDisplay(), at + ".display");
    }
  }

  Draft fromFhir(
      Practitioner practitioner,
      Reference reference,
      String referencePath,
      Draft root,
      String member,
      Reading reading) {
    String path = reading.path(practitioner);
    Draft draft = root.object(member, path);
    Names.identifier(reference, referencePath, practitioner.getIdentifier(), draft, path);
    Names.fromFhir(practitioner.getName(), draft, path);
    return draft;
  }
}
