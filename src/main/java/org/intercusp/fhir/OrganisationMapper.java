package org.intercusp.fhir;

import org.hl7.fhir.r4.model.ContactPoint;
import org.hl7.fhir.r4.model.ContactPoint.ContactPointSystem;
import org.hl7.fhir.r4.model.Organization;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.treatment.Organisation;

/** A clinic or laboratory as Organization. */
final class OrganisationMapper {

  void toFhir(Organisation organisation, Writing writing) {
    Organization resource = new Organization();
    resource.setActive(true);
    resource.setName(organisation.name());
    String contact = organisation.contact();
    if (contact != null) {
      resource.addTelecom(new ContactPoint().setSystem(system(contact)).setValue(contact));
    }
    writing.addShared(resource, Profile.ORGANIZATION, organisation.identifier());
  }

  private static ContactPointSystem system(String contact) {
    if (contact.matches("\\S+@\\S+")) {
      return ContactPointSystem.EMAIL;
    }
    return contact.matches("[+(]?[0-9][0-9 ()./-]*")
        ? ContactPointSystem.PHONE
        : ContactPointSystem.OTHER;
  }

  void fromFhir(
      Organization resource,
      Reference reference,
      String referencePath,
      Draft root,
      String member,
      Reading reading) {
    String path = reading.path(resource);
    Draft draft = root.object(member, path);
    Names.identifier(reference, referencePath, resource.getIdentifier(), draft, path);
    draft.put("name", resource.getName(), path + ".name");
    if (resource.hasTelecom()) {
      draft.put("contact", resource.getTelecomFirstRep().getValue(), path + ".telecom[0].value");
    }
  }
}
