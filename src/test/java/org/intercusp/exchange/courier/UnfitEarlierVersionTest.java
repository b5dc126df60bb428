package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.concurrent.atomic.AtomicBoolean;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.archive.Databases;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.conformance.NotConformant;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.recipient.Clearance;
import org.intercusp.treatment.ConsentScope;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** A version was tried, and cannot be made again when the next one wants to know of it. */
class UnfitEarlierVersionTest extends DeliveryRig {

  private final AtomicBoolean spoilt = new AtomicBoolean();

  /** Makes what is sent, until the first version is spoilt. */
  private Clearance gate(RuntimeException spoils) {
    return (StoredTreatment stored, ConsentScope scope) -> {
      if (spoilt.get() && stored.version() == 1) {
        throw spoils;
      }
      ObjectNode file = (ObjectNode) new JsonMapper().readTree(stored.bytes());
      return new Clearance.Answer.Ready(Parcels.bundle(file));
    };
  }

  /** How the second version's first try ends. */
  private Delivery second(RuntimeException spoils) {
    hospital.always(one -> true, (one, real) -> Said.of(503, "text/plain", "later"));
    Rig rig = new Rig(Databases.H2.fresh());
    ObjectNode file = Parcels.unheardOf();
    TreatmentKey key = rig.store(file);
    Clockwork clockwork =
        Clockwork.of(
                rig.database,
                new Clockwork.Sending(
                    rig.archive, recipients, gate(spoils), Clients.within(Duration.ofSeconds(30))),
                QUICK,
                Clock.systemUTC())
            .build();
    open.add(clockwork);
    clockwork.start();
    String first = rig.queued(key, 1, "hospital");
    rig.await(first, DeliveryState.WAITING);
    spoilt.set(true);
    ObjectNode next =
        Parcels.changed(file, one -> ((ObjectNode) one.at("/reviews/1")).put("overjet", 6));
    rig.archive.replace(key, 1, Parcels.canonical(next).getBytes(StandardCharsets.UTF_8));
    String second = rig.queued(key, 2, "hospital");
    rig.eventually(() -> !rig.deliveries.find(second).orElseThrow().reason().isEmpty());
    return rig.deliveries.find(second).orElseThrow();
  }

  @Test
  void oneThatNoLongerConformsHoldsTheNext() {
    Delivery second = second(notConformant());
    assertThat(second.state()).isEqualTo(DeliveryState.HELD);
    assertThat(second.reason()).contains("no longer conforms");
  }

  @Test
  void aFaultOfOursIsTriedAgain() {
    Delivery second = second(new IllegalStateException("of ours"));
    assertThat(second.reason()).contains("A fault of ours, incident");
    assertThat(second.state().isFinal()).isFalse();
  }

  private static NotConformant notConformant() {
    Bundle tooLong = new Bundle().setType(Bundle.BundleType.COLLECTION);
    tooLong.getIdentifier().setValue("x".repeat(GuardLimits.DEFAULT.textLength() + 1));
    try {
      new Conformance(Clients.R4, GuardLimits.DEFAULT, Clock.systemUTC()).mustPass(tooLong);
    } catch (NotConformant e) {
      return e;
    }
    throw new AssertionError("it conforms");
  }
}
