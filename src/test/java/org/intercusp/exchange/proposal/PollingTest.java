package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.proposal.Proposal.Change;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposal.State;
import org.intercusp.exchange.proposal.Proposals.Decision;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** What a recipient's people change comes back as proposals, each once, and is decided on. */
class PollingTest extends PollingRig {

  @ParameterizedTest
  @EnumSource(Databases.class)
  void whatWeWroteOurselvesProposesNothing(Databases kind) {
    delivered(kind);
    assertThat(poll()).isEmpty();
    store(1, newest -> ((ObjectNode) newest.at("/diagnosis")).put("overjet", 8.5));
    rig.await(rig.queued(key, 2, "hospital"), DeliveryState.DELIVERED);
    store(2, newest -> ((ObjectNode) newest.at("/diagnosis")).put("overjet", 8));
    assertThat(poll()).isEmpty();
    assertThat(proposals.of(key)).isEmpty();
  }

  @ParameterizedTest
  @EnumSource(Databases.class)
  void aCorrectedBirthDateIsProposedOnceAcceptedAndDeliveredWithoutConflict(Databases kind) {
    delivered(kind);
    poll();
    bornOn("2013-04-05");
    assertThat(poll()).isEmpty();
    assertThat(poll()).isEmpty();

    Proposal proposal = only();
    assertThat(change(proposal).path()).isEqualTo("/patient/birthDate");
    assertThat(change(proposal).before().asString()).isEqualTo("2013-05-04");
    assertThat(change(proposal).after().asString()).isEqualTo("2013-04-05");
    assertThat(proposal.content().origins().get(0).version()).isEqualTo("2");
    assertThat(proposal.content().origins().get(0).changedAt()).isNotNull();

    store(1, newest -> newest.put("asOf", "2026-03-21"));
    assertThat(proposals.accept(key, proposal.number(), 1, NOTHING))
        .isInstanceOf(Decision.Stale.class);
    assertThat(now("/patient/birthDate").asString()).isEqualTo("2013-05-04");
    Decision done = proposals.accept(key, proposal.number(), 2, NOTHING);
    assertThat(((Decision.Done) done).version().version()).isEqualTo(3);
    assertThat(now("/patient/birthDate").asString()).isEqualTo("2013-04-05");
    assertThat(proposals.accept(key, proposal.number(), 3, NOTHING))
        .isInstanceOf(Decision.Closed.class);
    poll();
    rig.await(rig.queued(key, 3, "hospital"), DeliveryState.DELIVERED);
    poll();
    assertThat(proposals.of(key)).hasSize(1).allMatch(one -> one.state() == State.ACCEPTED);
  }

  @Test
  void aDeclinedOneComesAgainOnlyWithOtherContent() {
    delivered(Databases.H2);
    bornOn("2013-04-05");
    poll();
    proposals.decline(key, only().number());
    poll();
    edit(Patient.class, "", patient -> patient.addTelecom().setValue("+44 1632 960111"));
    poll();
    assertThat(open()).noneMatch(one -> one.kind() == Kind.CHANGE);
    bornOn("2013-04-06");
    poll();
    assertThat(open()).filteredOn(one -> one.kind() == Kind.CHANGE).hasSize(1);
    bornOn("2013-05-04");
    poll();
    assertThat(open()).noneMatch(one -> one.kind() == Kind.CHANGE);
    bornOn("2013-04-05");
    poll();
    assertThat(open()).filteredOn(one -> one.kind() == Kind.CHANGE).hasSize(1);
    assertThat(proposals.of(key).stream().map(Proposal::state))
        .contains(State.DECLINED, State.OVERTAKEN, State.OPEN);
  }

  @Test
  void aNewOverjetBecomesAReviewThatWhoeverAcceptsCompletes() {
    delivered(Databases.H2);
    poll();
    Observation seen = overjet("2026-05-03T10:30:00Z", "5.5");
    poll();

    Change change = change(only());
    assertThat(change.path()).isEqualTo("/reviews/hospital-2026-05-03");
    assertThat(change.after().path("overjet").decimalValue()).isEqualByComparingTo("5.5");
    assertThat(change.after().path("seenBy").asString()).isEqualTo("Dr. Brandt");
    assertThat(change.after().path("stageId").asString()).isEqualTo("active");
    assertThat(change.lacking())
        .containsExactly("overbite", "molarRelation/right", "molarRelation/left");
    assertThat(only().content().beyond())
        .as("who measured stands in the review, so it is not without a place")
        .isEmpty();

    int number = only().number();
    assertThat(proposals.accept(key, number, 1, NOTHING)).isInstanceOf(Decision.Unreadable.class);
    ObjectNode supplied = new JsonMapper().createObjectNode().put("overbite", 3).put("overjet", 1);
    supplied.putObject("molarRelation").put("right", 2).put("left", 2.5);
    assertThat(proposals.accept(key, number, 1, supplied)).isInstanceOf(Decision.Done.class);
    assertThat(now("/reviews/hospital-2026-05-03/overjet").decimalValue())
        .isEqualByComparingTo("5.5");
    rig.await(rig.queued(key, 2, "hospital"), DeliveryState.DELIVERED);
    poll();
    assertThat(open()).isEmpty();

    records.write(millimetres(seen, "5"));
    poll();
    assertThat(change(only()).path()).isEqualTo("/reviews/hospital-2026-05-03/overjet");
    store(2, newest -> ((ObjectNode) newest.at("/reviews/2")).put("overjet", 5));
    poll();
    assertThat(open()).isEmpty();
  }

  @Test
  void aValueCorrectedInOurOwnObservationIsNoConflictOnceAccepted() {
    delivered(Databases.H2);
    edit(Observation.class, "/overjet/rev-2", seen -> millimetres(seen, "6.5"));
    edit(Observation.class, "/overbite/rev-2", seen -> millimetres(seen, "1"));
    poll();
    List<Proposal> both = open();
    assertThat(both.stream().map(PollingRig::change).map(Change::path))
        .containsExactlyInAnyOrder("/reviews/rev-2/overjet", "/reviews/rev-2/overbite");

    Proposal overjet =
        both.stream().filter(one -> change(one).path().endsWith("overjet")).findFirst().get();
    assertThat(proposals.accept(key, overjet.number(), 1, NOTHING))
        .isInstanceOf(Decision.Done.class);
    store(2, newest -> ((ObjectNode) newest.at("/reviews/1")).put("overjet", 6));
    rig.await(rig.queued(key, 3, "hospital"), DeliveryState.DELIVERED);
    assertThat(records.find(Observation.class, "/overjet/rev-2").getValueQuantity().getValue())
        .isEqualByComparingTo("6");

    // The one that nobody accepted: a change of ours on top of theirs is held, as ever.
    store(3, newest -> ((ObjectNode) newest.at("/reviews/1")).put("overbite", 1.5));
    Delivery held = rig.await(rig.queued(key, 4, "hospital"), DeliveryState.HELD);
    assertThat(held.reason()).contains("Changed at the recipient's");
  }
}
