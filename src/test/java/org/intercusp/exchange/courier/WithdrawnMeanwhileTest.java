package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Notice;
import org.intercusp.exchange.queue.Queueing;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Consent ends in a newer version while an older one has not got through. */
class WithdrawnMeanwhileTest extends WithdrawalRig {

  @ParameterizedTest
  @MethodSource(DATABASES)
  void nothingOfTheOlderVersionGoesOnceTheNewestSaysNo(Databases kind) {
    Rig rig = new Rig(kind.fresh());
    TreatmentKey key = rig.store(agreed);
    String id = rig.queued(key, 1, "hospital");
    rig.archive.replace(key, 1, withdrawn(today()));
    up.set(true);
    rig.start();

    Delivery held = rig.await(id, DeliveryState.HELD);
    assertThat(held.reason()).contains("consent-missing").contains("version is 2");

    rig.deliveries.retry(id);
    rig.eventually(() -> rig.deliveries.attempts(id).size() > held.attempts());
    assertThat(rig.await(id, DeliveryState.HELD).reason()).contains("consent-missing");
    assertThat(records.stored()).isZero();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whoIsBeingSentItAtThatMomentIsToldAfterwards(Databases kind) throws Exception {
    CountDownLatch writing = new CountDownLatch(1);
    CountDownLatch go = new CountDownLatch(1);
    up.set(true);
    hospital.first(one -> one.isWrite() && held(writing, go), (one, real) -> Said.nothing());
    Rig rig = new Rig(kind.fresh());
    rig.start();
    TreatmentKey key = rig.store(agreed);
    String id = rig.queued(key, 1, "hospital");
    assertThat(writing.await(30, TimeUnit.SECONDS)).isTrue();

    String told = only(replaced(rig, key, 1, withdrawn(today()))).id();
    go.countDown();

    rig.await(id, DeliveryState.DELIVERED);
    assertThat(rig.await(told, DeliveryState.DELIVERED).reason()).isEqualTo(Notice.TOLD);
  }

  /** Waits and then has no fault. */
  private static boolean held(CountDownLatch writing, CountDownLatch go) {
    writing.countDown();
    try {
      return !go.await(30, TimeUnit.SECONDS);
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  @Test
  void whatWaitsIsOvertakenByAWithdrawalAndNothingLeaves() {
    Rig rig = new Rig(Databases.H2.fresh());
    TreatmentKey key = rig.store(agreed);
    String id = rig.queued(key, 1, "hospital");
    assertThat(replaced(rig, key, 1, withdrawn(today()), "hospital").get(0))
        .isInstanceOf(Queueing.Stopped.class);
    up.set(true);
    rig.start();
    assertThat(rig.await(id, DeliveryState.GIVEN_UP).reason()).contains("Overtaken");
    rig.eventually(() -> rig.deliveries.of(key).stream().allMatch(one -> one.state().isFinal()));
    assertThat(records.stored()).isZero();
  }

  @Test
  void anOlderVersionIsNotQueuedEither() {
    Rig rig = new Rig(Databases.H2.fresh());
    TreatmentKey key = rig.store(agreed);
    rig.archive.replace(key, 1, withdrawn(today()));
    assertThat(rig.deliveries.queue(key, 1, "hospital")).isInstanceOf(Queueing.Stopped.class);
    assertThat(rig.deliveries.of(key)).isEmpty();
  }

  @Test
  void theOlderVersionGoesWhereTheNewestOnlySaysSomethingElse() {
    Rig rig = new Rig(Databases.H2.fresh());
    rig.start();
    TreatmentKey key = rig.store(agreed);
    String id = rig.queued(key, 1, "hospital");
    rig.archive.replace(key, 1, bytes(Parcels.changed(agreed, f -> f.put("asOf", "2026-03-21"))));
    up.set(true);
    rig.await(id, DeliveryState.DELIVERED);
    assertThat(records.stored()).isPositive();
  }
}
