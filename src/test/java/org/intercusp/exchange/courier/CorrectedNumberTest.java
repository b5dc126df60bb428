package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Patient;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.KeptRecords;
import org.intercusp.exchange.KeptRecords.Manner;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryRows;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Lanes;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.node.ObjectNode;

/** A version that corrects the patient's number, and with it the lane, beside the one before. */
class CorrectedNumberTest extends DeliveryRig {

  private final AtomicInteger writes = new AtomicInteger();
  private final ScheduledExecutorService later = Executors.newSingleThreadScheduledExecutor();
  private final ObjectNode file = Parcels.unheardOf();
  private Rig rig;
  private TreatmentKey key;

  @AfterEach
  void endLater() {
    later.shutdownNow();
  }

  private String first(Databases kind) {
    rig = new Rig(kind.fresh());
    key = rig.store(file);
    return rig.queued(key, 1, "hospital");
  }

  /** Queues the second version, with another number and another overjet. */
  private String corrected() {
    ObjectNode corrected =
        Parcels.changed(
            file,
            one -> {
              ObjectNode number = (ObjectNode) one.at("/patient/identifier");
              number.put("value", number.path("value").stringValue() + "-right");
              ((ObjectNode) one.at("/reviews/1")).put("overjet", 6);
            });
    rig.archive.replace(key, 1, Parcels.canonical(corrected).getBytes(StandardCharsets.UTF_8));
    return rig.queued(key, 2, "hospital");
  }

  private static List<String> overjets(KeptRecords kept) {
    return kept.current().stream()
        .filter(one -> KeptRecords.names(one).toString().contains("/overjet/rev-2"))
        .filter(Observation.class::isInstance)
        .map(one -> ((Observation) one).getValueQuantity().getValue().toString())
        .toList();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void waitsForTheOneUnderWay(Databases kind) {
    KeptRecords kept = new KeptRecords(Manner.CONDITIONAL);
    CountDownLatch goOn = new CountDownLatch(1);
    hospital.always(
        one -> true,
        (one, real) -> {
          if (one.isWrite() && writes.getAndIncrement() == 0) {
            goOn.await(20, TimeUnit.SECONDS);
          }
          return kept.answer(one);
        });
    String wrong = first(kind);
    rig.start();
    rig.eventually(() -> writes.get() > 0);
    String right = corrected();
    // Longer than a lease: the one under way is alive.
    rig.pause(3_000);
    assertThat(rig.deliveries.find(right).orElseThrow().attempts()).isZero();
    goOn.countDown();
    rig.await(right, DeliveryState.DELIVERED);
    assertThat(rig.deliveries.find(wrong).orElseThrow().state().isFinal()).isTrue();
    assertThat(overjets(kept)).containsExactly("6");
    String number = file.at("/patient/identifier/value").stringValue();
    assertThat(kept.current().stream().filter(Patient.class::isInstance))
        .as("whoever has the right number is another person there")
        .extracting(one -> ((Patient) one).getIdentifierFirstRep().getValue())
        .containsExactlyInAnyOrder(number, number + "-right");
  }

  @Test
  void waitsForAWriteThatNobodyHeardOf() {
    KeptRecords kept = new KeptRecords(Manner.TRANSACTION);
    CountDownLatch another = new CountDownLatch(1);
    hospital.always(
        one -> true,
        (one, real) -> {
          if (one.isWrite() && writes.getAndIncrement() == 0) {
            // When another was stored, or a second later: long before everything is settled.
            var unused =
                later.submit(
                    () -> {
                      another.await(1, TimeUnit.SECONDS);
                      return kept.answer(one);
                    });
            return Said.nothing();
          }
          Said said = kept.answer(one);
          if (one.isWrite()) {
            another.countDown();
          }
          return said;
        });
    String wrong = first(Databases.H2);
    rig.start();
    rig.await(wrong, DeliveryState.WAITING);
    rig.await(corrected(), DeliveryState.DELIVERED);
    List<String> names = new ArrayList<>();
    kept.current().forEach(one -> names.addAll(KeptRecords.names(one)));
    assertThat(names).doesNotHaveDuplicates();
    assertThat(overjets(kept)).containsExactly("6");
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void oneWhoseLeaseRanOutWritesNothingOnceTheNewerBegan(Databases kind) {
    String wrong = first(kind);
    DeliveryRows rows = new DeliveryRows(rig.database, CurrentCaller.withoutLogin());
    UnansweredRows unanswered = new UnansweredRows(rig.database);
    Lanes lanes = new Lanes(rig.database);
    Instant now = Clock.systemUTC().instant().truncatedTo(ChronoUnit.MICROS);
    Delivery old = rows.find(wrong).orElseThrow();
    String lane = rows.patient(wrong);
    Leases leases = new Leases(lanes, Duration.ofMinutes(1));
    Leases.Lease lease = leases.take("hospital", lane).orElseThrow();
    rows.begin(old, lease.fence(), now);
    Delivery newer = rows.find(corrected()).orElseThrow();
    assertThat(rows.patient(newer.id())).isNotEqualTo(lane);
    OtherVersions others = new OtherVersions(rig.database);
    assertThat(others.isUnderWay(newer)).isTrue();
    assertThat(unanswered.begin(old, lease, false, true)).isTrue();
    Duration settling = Duration.ofMinutes(2);
    UnansweredRows.Open open = unanswered.open(newer, rows.patient(newer.id()), settling);
    assertThat(open.repeatable()).isFalse();
    assertThat(open.left()).isPositive();

    lanes.renew("hospital", lane, lease.fence(), Duration.ofMinutes(-1));
    assertThat(others.isUnderWay(newer)).isFalse();
    rows.begin(newer, 1, now);
    assertThat(unanswered.begin(old, lease, false, true)).isFalse();
    leases.close();
  }
}
