package org.intercusp.fhir;

import org.hl7.fhir.r4.model.CareTeam;
import org.hl7.fhir.r4.model.CareTeam.CareTeamParticipantComponent;
import org.hl7.fhir.r4.model.CareTeam.CareTeamStatus;
import org.hl7.fhir.r4.model.Organization;
import org.hl7.fhir.r4.model.PractitionerRole;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.treatment.Organisation;
import org.intercusp.treatment.Person;
import org.intercusp.treatment.Treatment;

/** Who takes which part in the treatment, as CareTeam with its people and organisations. */
final class TeamMapper {

  private final PersonMapper people = new PersonMapper();
  private final OrganisationMapper organisations = new OrganisationMapper();

  void toFhir(Writing writing) {
    Treatment treatment = writing.treatment();
    CareTeam team = new CareTeam();
    team.setStatus(
        writing.treatment().hasEnded() ? CareTeamStatus.INACTIVE : CareTeamStatus.ACTIVE);
    team.setSubject(writing.patient());
    organisation(treatment.clinic(), Codes.CLINIC, team, writing);
    people.toFhir(treatment.clinician(), Role.CLINICIAN, Codes.CLINICIAN, writing);
    member(team, Codes.CLINICIAN, writing.to("PractitionerRole", Role.CLINICIAN), writing);
    Person referrer = treatment.referrer();
    if (referrer != null) {
      people.toFhir(referrer, Role.REFERRER, Codes.REFERRER, writing);
      member(team, Codes.REFERRER, writing.to("PractitionerRole", Role.REFERRER), writing);
    }
    Organisation laboratory = treatment.laboratory();
    if (laboratory != null) {
      organisation(laboratory, Codes.LABORATORY, team, writing);
    }
    writing.add(team, Role.TEAM);
  }

  private void organisation(
      Organisation organisation, Concept code, CareTeam team, Writing writing) {
    organisations.toFhir(organisation, writing);
    member(team, code, Names.named("Organization", organisation.identifier()), writing);
  }

  private static void member(CareTeam team, Concept code, Reference member, Writing writing) {
    team.addParticipant().addRole(code.concept(writing.canonicals())).setMember(member);
  }

  void fromFhir(Draft root, Reading reading) {
    for (CareTeam team : reading.all(CareTeam.class)) {
      for (int i = 0; i < team.getParticipant().size(); i++) {
        CareTeamParticipantComponent participant = team.getParticipant().get(i);
        Resource member = reading.resolve(participant.getMember());
        String path = reading.path(team) + ".participant[" + i + "].member";
        if (member == null) {
          reading.fault("unknown-reference", path, "", "no such resource in the Bundle");
        } else {
          participant
              .getRole()
              .forEach(
                  role ->
                      put(
                          root,
                          member,
                          participant.getMember(),
                          path,
                          name(role, reading),
                          reading));
        }
      }
      return;
    }
  }

  private void put(
      Draft root, Resource member, Reference reference, String at, String name, Reading reading) {
    if (name.isEmpty()) {
      return;
    }
    if (member instanceof PractitionerRole person) {
      people.fromFhir(person, root, name, reading);
    } else if (member instanceof org.hl7.fhir.r4.model.Practitioner person) {
      people.fromFhir(person, reference, at, root, name, reading);
    } else if (member instanceof Organization organization) {
      organisations.fromFhir(organization, reference, at, root, name, reading);
    }
  }

  // The codes are the file's member names.
  private static String name(org.hl7.fhir.r4.model.CodeableConcept role, Reading reading) {
    String system = reading.canonicals().of(LocalSystem.TEAM_ROLE);
    var code = Kind.codeIn(role, system);
    return code == null ? "" : code.stringValue();
  }
}
