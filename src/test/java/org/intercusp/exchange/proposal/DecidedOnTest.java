package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposals.Decision;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** What a person has decided on, the next delivery writes over; what came after it, it does not. */
class DecidedOnTest extends PollingRig {

  private static final String OVERJET = "/overjet/rev-2";

  @ParameterizedTest
  @CsvSource({"H2, true", "H2, false", "POSTGRESQL, false"})
  void aNoteOnTheCarePlanHoldsTheNextReviewUntilItIsDecidedOn(Databases kind, boolean accepted) {
    delivered(kind);
    edit(CarePlan.class, "", plan -> plan.addNote().setText("Seen at the hospital"));
    poll();
    store(1, DecidedOnTest::anotherReview);
    String next = rig.queued(key, 2, "hospital");
    rig.await(next, DeliveryState.HELD);

    Proposal note = only();
    assertThat(note.kind()).isEqualTo(Kind.BEYOND);
    assertThat(note.content().origins()).hasSize(1);
    decide(note, accepted);
    rig.deliveries.retry(next);
    rig.await(next, DeliveryState.DELIVERED);
    assertThat(records.find(CarePlan.class, "").hasNote()).isFalse();
    poll();
    assertThat(open()).isEmpty();
  }

  private static void anotherReview(ObjectNode file) {
    ArrayNode reviews = (ArrayNode) file.at("/reviews");
    ObjectNode last = (ObjectNode) reviews.get(reviews.size() - 1).deepCopy();
    reviews.add(last.put("id", "rev-9"));
  }

  private void decide(Proposal one, boolean accepted) {
    Decision decision =
        accepted
            ? proposals.accept(key, one.number(), one.base(), NOTHING)
            : proposals.decline(key, one.number());
    assertThat(decision).isInstanceOf(Decision.Done.class);
  }

  private void note(String text) {
    edit(Observation.class, OVERJET, seen -> seen.addNote().setText(text));
  }

  private void ours(int expected, int overjet) {
    store(expected, newest -> ((ObjectNode) newest.at("/reviews/1")).put("overjet", overjet));
  }

  @ParameterizedTest
  @ValueSource(booleans = {true, false})
  void whatWasAddedAfterWhatThePersonSawStillHolds(boolean seenBefore) {
    delivered(Databases.H2);
    note("One");
    poll();
    note("Two");
    if (seenBefore) {
      poll();
    }
    ours(1, 6);
    String next = rig.queued(key, 2, "hospital");
    rig.await(next, DeliveryState.HELD);
    decide(open().get(open().size() - 1), true);
    rig.deliveries.retry(next);
    rig.await(next, DeliveryState.HELD);
    poll();
    decide(only(), false);
    rig.deliveries.retry(next);
    rig.await(next, DeliveryState.DELIVERED);
    assertThat(records.find(Observation.class, OVERJET).hasNote()).isFalse();
  }

  @Test
  void theirsDeclinedOursStandsAndTheSameLaterIsAskedAgain() {
    delivered(Databases.H2);
    edit(Observation.class, OVERJET, seen -> millimetres(seen, "6.5"));
    poll();
    note("Added after it was proposed");
    poll();
    assertThat(open()).hasSize(2);
    ours(1, 6);
    String next = rig.queued(key, 2, "hospital");
    rig.await(next, DeliveryState.HELD);
    open().forEach(one -> decide(one, false));
    poll();
    assertThat(open()).isEmpty();
    rig.deliveries.retry(next);
    Delivery done = rig.await(next, DeliveryState.DELIVERED);
    assertThat(done.version()).isEqualTo(2);
    assertThat(records.find(Observation.class, OVERJET).getValueQuantity().getValue())
        .isEqualByComparingTo("6");

    edit(Observation.class, OVERJET, seen -> millimetres(seen, "6.5"));
    poll();
    assertThat(change(only()).path()).isEqualTo("/reviews/rev-2/overjet");
  }

  @Test
  void aDecisionOnWhatADeliveryWroteOverHoldsNothing() {
    delivered(Databases.H2);
    note("Taken away again");
    poll();
    edit(Observation.class, OVERJET, seen -> seen.getNote().clear());
    ours(1, 6);
    rig.await(rig.queued(key, 2, "hospital"), DeliveryState.DELIVERED);
    decide(only(), false);
    ours(2, 5);
    rig.await(rig.queued(key, 3, "hospital"), DeliveryState.DELIVERED);

    note("Taken away again");
    poll();
    assertThat(only().kind()).isEqualTo(Kind.BEYOND);
  }
}
