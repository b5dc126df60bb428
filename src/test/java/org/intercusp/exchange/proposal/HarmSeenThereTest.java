package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import org.hl7.fhir.r4.model.Observation;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.proposal.Proposals.Decision;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** A sign of harm that a recipient's people recorded, and what accepting it makes of it. */
class HarmSeenThereTest extends PollingRig {

  private static final String SIGNS = "/joint-signs/rev-1";

  @Test
  void whatTheHospitalSawAndTheClinicAcceptsGoesToTheOthersAtOnce() {
    FakeRecords dentist = new FakeRecords(referrer);
    ((ObjectNode) file.at("/patient/consent")).remove("withdrawnOn");
    delivered(Databases.H2);
    edit(
        Observation.class,
        SIGNS,
        seen -> seen.setValue(null).setComponent(locking().getComponent()));

    poll();
    Proposal proposal = only();
    assertThat(change(proposal).path()).isEqualTo("/reviews/rev-1/jointSigns");
    assertThat(proposals.accept(key, proposal.number(), proposal.base(), NOTHING))
        .isInstanceOf(Decision.Done.class);

    assertThat(rig.deliveries.of(key))
        .filteredOn(one -> one.version() == 2)
        .extracting(Delivery::recipient)
        .containsExactlyInAnyOrder("hospital", "referrer");
    rig.eventually(() -> dentist.duplicates() == 0 && rig.count("delivery") == 3);
    rig.deliveries.of(key).forEach(one -> rig.await(one.id(), DeliveryState.DELIVERED));
    assertThat(dentist.find(Observation.class, SIGNS).hasComponent()).isTrue();
  }

  /** As we would say it ourselves. */
  private Observation locking() {
    ObjectNode said =
        Parcels.changed(
            file, one -> ((ObjectNode) one.at("/reviews/0")).putArray("jointSigns").add("locking"));
    return Parcels.bundle(said).getEntry().stream()
        .map(entry -> entry.getResource())
        .filter(Observation.class::isInstance)
        .map(Observation.class::cast)
        .filter(one -> one.getIdentifierFirstRep().getValue().endsWith(SIGNS))
        .findFirst()
        .orElseThrow();
  }
}
