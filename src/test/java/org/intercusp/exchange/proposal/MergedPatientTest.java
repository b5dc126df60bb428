package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.Clock;
import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.hl7.fhir.r4.model.Patient.LinkType;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.wire.Place;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.node.ObjectNode;

/**
 * Two patients that a recipient's people made one: the next delivery goes to the one that stands.
 */
class MergedPatientTest extends PollingRig {

  private Patient survivor;

  private void delivered() {
    delivered(Databases.H2);
    survivor = new Patient();
    survivor.addIdentifier().setSystem("urn:oid:2.999.7").setValue("H-4711");
    survivor.addName().setFamily("Ferreira-Lund").addGiven("Noé");
    survivor.setGender(org.hl7.fhir.r4.model.Enumerations.AdministrativeGender.MALE);
    survivor.setBirthDateElement(new org.hl7.fhir.r4.model.DateType("2013-05-04"));
    records.write(survivor);
  }

  private void link(Patient from, String to) {
    from.setActive(false);
    from.addLink().setType(LinkType.REPLACEDBY).setOther(new Reference(to));
    records.write(from);
  }

  private List<Proposal> polled() {
    poll();
    return proposals.of(key);
  }

  private void deliverAgain(int version, String overjet) {
    store(
        version - 1,
        newest -> ((ObjectNode) newest.at("/reviews/1")).put("overjet", new BigDecimal(overjet)));
    rig.await(rig.queued(key, version, "hospital"), DeliveryState.DELIVERED);
  }

  private String subject(String end) {
    return records.find(Observation.class, end).getSubject().getReference();
  }

  private void moveAll(String from, String to) {
    for (Resource one : records.all()) {
      Resource copy = one.copy();
      Clients.R4.newTerser().getAllResourceReferences(copy).stream()
          .map(info -> (Reference) info.getResourceReference())
          .filter(reference -> from.equals(reference.getReference()))
          .forEach(reference -> reference.setReference(to));
      records.write(copy);
    }
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void theNextDeliveryUpdatesWhatTheSurvivorHas(boolean movedThere) {
    delivered();
    Patient ours = records.find(Patient.class, identifierOfOurs());
    link(ours, Place.of(survivor));
    if (movedThere) {
      moveAll(Place.of(ours), Place.of(survivor));
    }
    List<Proposal> said = polled();
    assertThat(said).filteredOn(one -> one.kind() == Kind.MERGED).hasSize(1);
    assertThat(said).noneMatch(one -> one.kind() == Kind.CHANGE);
    assertThat(said.toString()).contains("urn:oid:2.999.7|H-4711");
    assertThat(polled()).filteredOn(one -> one.kind() == Kind.MERGED).hasSize(1);

    deliverAgain(2, "6.5");
    assertThat(records.count("Patient")).isEqualTo(2);
    assertThat(subject("/overjet/rev-2")).isEqualTo(Place.of(survivor));
    assertThat(subject("/overbite/rev-2")).isEqualTo(Place.of(survivor));
    assertThat(records.duplicates()).isZero();
    deliverAgain(3, "6");
    assertThat(polled()).noneMatch(one -> one.kind() == Kind.CHANGE);
  }

  @Test
  void whatTheirPeopleChangedIsNotWrittenOverToMoveIt() {
    delivered();
    link(records.find(Patient.class, identifierOfOurs()), Place.of(survivor));
    edit(Observation.class, "/overbite/rev-2", one -> millimetres(one, "7"));
    deliverAgain(2, "6.5");
    assertThat(subject("/overjet/rev-2")).isEqualTo(Place.of(survivor));
    Observation theirs = records.find(Observation.class, "/overbite/rev-2");
    assertThat(theirs.getValueQuantity().getValue()).isEqualByComparingTo("7");
  }

  @Test
  void aDeliveryToWhoIsNotAskedTellsOfItOnce() {
    delivered();
    Patient ours = records.find(Patient.class, identifierOfOurs());
    link(ours, Place.of(survivor));
    for (int version = 2; version <= 3; version++) {
      deliverAgain(version, version == 2 ? "6.5" : "6");
      assertThat(subject("/overjet/rev-2")).isEqualTo(Place.of(survivor));
      assertThat(proposals.of(key)).hasSize(1).allMatch(one -> one.kind() == Kind.MERGED);
    }
    assertThat(proposals.of(key).toString()).contains("urn:oid:2.999.7|H-4711");
  }

  @Test
  void theOneThatWasReplacedMayBeGoneAltogether() {
    delivered();
    Patient ours = records.find(Patient.class, identifierOfOurs());
    link(ours, Place.of(survivor));
    moveAll(Place.of(ours), Place.of(survivor));
    polled();
    records.remove(ours);
    deliverAgain(2, "6.5");
    assertThat(records.count("Patient")).isEqualTo(1);
    assertThat(subject("/overjet/rev-2")).isEqualTo(Place.of(survivor));
  }

  @Test
  void theSurvivorMayHaveOurIdentifierAndSayNothingOfTheOther() {
    delivered();
    Patient ours = records.find(Patient.class, identifierOfOurs());
    survivor.addIdentifier(ours.getIdentifierFirstRep().copy());
    records.write(survivor);
    moveAll(Place.of(ours), Place.of(survivor));
    records.remove(ours);
    assertThat(polled()).filteredOn(one -> one.kind() == Kind.MERGED).hasSize(1);
    deliverAgain(2, "6.5");
    assertThat(records.count("Patient")).isEqualTo(1);
    assertThat(subject("/overjet/rev-2")).isEqualTo(Place.of(survivor));
  }

  @Test
  void aLinkElsewhereOrInARingIsNotFollowed() {
    delivered();
    Patient ours = records.find(Patient.class, identifierOfOurs());
    link(ours, referrer.baseUrl() + "/Patient/7");
    polled();
    deliverAgain(2, "6.5");
    assertThat(referrer.asked()).isEmpty();
    assertThat(subject("/overjet/rev-2")).isEqualTo(Place.of(ours));

    ours.getLink().clear();
    link(ours, Place.of(survivor));
    link(survivor, Place.of(ours));
    assertThat(polled()).noneMatch(one -> one.kind() == Kind.MERGED);
    deliverAgain(3, "6");
    assertThat(subject("/overjet/rev-2")).isEqualTo(Place.of(ours));
    assertThat(records.count("Patient")).isEqualTo(2);
  }

  @Test
  void whatOneRecipientSaidAnotherMaySayToo() {
    rig = new Rig(Databases.H2.fresh());
    key = rig.store(file);
    CurrentCaller callers = CurrentCaller.withoutLogin();
    ProposalRows rows = new ProposalRows(rig.database, callers);
    Clock clock = Clock.systemUTC();
    Offering offering = new Offering(rows, new AuditTrail(rig.database, callers, clock), clock);
    // Servers that number from one have the same ids.
    Ledger.Holder holder = new Ledger.Holder("urn:s", "4711", "2", List.of("1"), "", "");
    for (String recipient : List.of("hospital", "referrer", "hospital", "referrer")) {
      offering.merged(new Offering.Subject(recipient, key, 1, NOTHING), holder);
    }
    assertThat(rows.of(key))
        .extracting(Proposal::recipient)
        .containsExactlyInAnyOrder("hospital", "referrer");
  }

  private String identifierOfOurs() {
    return now("/patient/identifier/value").asString();
  }
}
