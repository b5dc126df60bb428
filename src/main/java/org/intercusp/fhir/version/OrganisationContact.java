package org.intercusp.fhir.version;

import org.hl7.fhir.r4.model.Organization;

/**
 * Repair: {@code Organization.telecom}, a contact in R5. On the way back the converter gives both,
 * the telecom and a contact that says no more than it.
 */
final class OrganisationContact
    implements Repair<Organization, org.hl7.fhir.r5.model.Organization> {

  @Override
  public Class<Organization> four() {
    return Organization.class;
  }

  @Override
  public Class<org.hl7.fhir.r5.model.Organization> five() {
    return org.hl7.fhir.r5.model.Organization.class;
  }

  @Override
  public void up(Organization from, org.hl7.fhir.r5.model.Organization made) {
    // R5 says in contacts what R4 says in telecom: nothing is lost on this way.
  }

  @Override
  public void down(org.hl7.fhir.r5.model.Organization from, Organization made) {
    if (made.hasTelecom()) {
      made.getContact()
          .removeIf(
              contact -> !contact.hasName() && !contact.hasPurpose() && !contact.hasAddress());
    }
  }
}
