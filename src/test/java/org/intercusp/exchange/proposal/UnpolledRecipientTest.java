package org.intercusp.exchange.proposal;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposals.Decision;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.node.ObjectNode;

/** A recipient that nobody asks for changes: what a delivery meets there is shown all the same. */
class UnpolledRecipientTest extends PollingRig {

  private static final String OVERJET = "/overjet/rev-2";

  @Override
  public @Nullable Duration pollEvery() {
    return null;
  }

  @Test
  void whatItsPeopleChangedHoldsTheDeliveryUntilSomebodyHasSeenIt() {
    delivered(Databases.H2);
    edit(Observation.class, OVERJET, seen -> millimetres(seen, "6.5"));
    store(1, newest -> ((ObjectNode) newest.at("/reviews/1")).put("overjet", 6));
    String next = rig.queued(key, 2, "hospital");
    Delivery held = rig.await(next, DeliveryState.HELD);
    assertThat(held.reason()).startsWith("Changed at the recipient's");
    assertThat(only().kind()).isEqualTo(Kind.BEYOND);
    assertThat(only().content().beyond().toString()).contains("6.5");
    rig.deliveries.retry(next);
    rig.await(next, DeliveryState.HELD);
    assertThat(open()).as("shown once").hasSize(1);
    assertThat(proposals.accept(key, only().number(), 2, NOTHING))
        .isInstanceOf(Decision.Done.class);
    rig.deliveries.retry(next);
    rig.await(next, DeliveryState.DELIVERED);
    assertThat(records.find(Observation.class, OVERJET).getValueQuantity().getValue())
        .isEqualByComparingTo("6");
  }

  @Test
  void whatItsPeopleDeletedToo() {
    delivered(Databases.H2);
    records.remove(records.find(Observation.class, OVERJET));
    store(1, newest -> ((ObjectNode) newest.at("/diagnosis")).put("overjet", 8));
    String next = rig.queued(key, 2, "hospital");
    rig.await(next, DeliveryState.HELD);
    assertThat(only().kind()).isEqualTo(Kind.DELETED);
    assertThat(proposals.decline(key, only().number())).isInstanceOf(Decision.Done.class);
    rig.deliveries.retry(next);
    rig.await(next, DeliveryState.DELIVERED);
    assertThat(records.find(Observation.class, OVERJET).hasValue()).isTrue();
    assertThat(records.duplicates()).isZero();
  }
}
