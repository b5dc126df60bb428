package org.intercusp.exchange.records;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.wire.Token;
import org.intercusp.exchange.wire.Trouble;
import org.intercusp.fhir.Identity;
import org.intercusp.fhir.Role;

/** What an earlier delivery brought and this one does not, where nobody keeps a ledger. */
final class Leftovers {

  private final Survey survey;

  Leftovers(Survey survey) {
    this.survey = survey;
  }

  /**
   * The names on the server that belong to the treatments of a parcel and are not in it.
   *
   * @param patientId of the patient as stored; absent while there is none
   */
  Set<Name> gone(Parcel parcel, Optional<String> patientId) throws Trouble {
    Set<Identity> treatments = new LinkedHashSet<>();
    Set<Name> sent = new LinkedHashSet<>();
    for (Parcel.Item item : parcel.items()) {
      sent.add(Plan.name(item));
      if (!item.shared()) {
        Identity.parse(item.token().system(), item.token().value())
            .ifPresent(name -> treatments.add(name.identity()));
      }
    }
    Set<Name> gone = new LinkedHashSet<>();
    if (patientId.isPresent()) {
      for (Resource resource : survey.of(patientId.get())) {
        Survey.own(resource)
            .filter(name -> treatments.contains(identity(name)))
            .ifPresent(gone::add);
      }
    }
    for (Identity treatment : treatments) {
      for (Role role : List.of(Role.CLINICIAN, Role.REFERRER)) {
        var identifier = treatment.identifier(role);
        gone.add(
            new Name(
                "PractitionerRole",
                new Token(Token.IDENTIFIER, identifier.system(), identifier.value())));
      }
    }
    gone.removeAll(sent);
    return gone;
  }

  private static Identity identity(Name name) {
    return Identity.parse(name.token().system(), name.token().value()).orElseThrow().identity();
  }
}
