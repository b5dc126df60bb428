package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Queueing;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Consent ends on a day that is still to come. */
class WithdrawnLaterTest extends WithdrawalRig {

  private static final LocalDate DAY = today().plusDays(30);
  private static final Instant BEGINS = DAY.atStartOfDay(ZoneOffset.UTC).toInstant();

  @BeforeEach
  void reached() {
    up.set(true);
  }

  private TreatmentKey delivered(Rig rig) {
    rig.start();
    TreatmentKey key = rig.store(agreed);
    rig.await(rig.queued(key, 1, "hospital"), DeliveryState.DELIVERED);
    return key;
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatIsStoppedByOtherThingsIsToldOnTheDayAndNotBefore(Databases kind) {
    Rig rig = new Rig(kind.fresh());
    TreatmentKey key = delivered(rig);
    hospital.asked().clear();
    wrong.set(true);

    assertThat(replaced(rig, key, 1, withdrawn(DAY), "hospital"))
        .singleElement()
        .isInstanceOf(Queueing.Stopped.class);
    Delivery waits =
        rig.deliveries.of(key).stream().filter(one -> one.version() == 2).findFirst().orElseThrow();
    assertThat(waits.state()).isEqualTo(DeliveryState.QUEUED);
    assertThat(waits.dueAt()).isEqualTo(BEGINS);

    rig.deliveries.retry(waits.id());
    rig.eventually(() -> rig.deliveries.find(waits.id()).orElseThrow().attempts() == 1);
    Delivery again = rig.await(waits.id(), DeliveryState.QUEUED);
    assertThat(again.dueAt()).isBetween(BEGINS.minusSeconds(1), BEGINS.plusSeconds(9));
    assertThat(again.reason()).contains("on its day");
    assertThat(hospital.asked()).isEmpty();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatWaitsIsNotOvertakenByWhatIsToldLater(Databases kind) {
    Rig rig = new Rig(kind.fresh());
    TreatmentKey key = delivered(rig);
    up.set(false);
    byte[] second = bytes(Parcels.changed(agreed, f -> f.put("asOf", "2026-03-21")));
    String id = only(replaced(rig, key, 1, second, "hospital")).id();
    rig.await(id, DeliveryState.WAITING);

    Delivery later = only(replaced(rig, key, 2, withdrawn(DAY)));
    up.set(true);

    assertThat(rig.await(id, DeliveryState.DELIVERED).reason()).isEmpty();
    assertThat(rig.deliveries.find(later.id()).orElseThrow().dueAt()).isEqualTo(BEGINS);
  }

  @Test
  void whoIsGivenItBeforeTheDayIsToldToo() {
    up.set(false);
    Rig rig = new Rig(Databases.H2.fresh());
    rig.start();
    TreatmentKey key = rig.store(agreed);
    String id = rig.queued(key, 1, "hospital");
    rig.await(id, DeliveryState.WAITING);
    assertThat(only(replaced(rig, key, 1, withdrawn(DAY))).dueAt()).isEqualTo(BEGINS);
    up.set(true);
    rig.await(id, DeliveryState.DELIVERED);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void patienceBeginsWithTheFirstTry(Databases kind) {
    up.set(false);
    Rig rig = new Rig(kind.fresh());
    String id = rig.queued(rig.store(agreed), 1, "hospital");
    longAgo(rig, "update delivery set queued_at = :then");
    rig.start();

    rig.eventually(() -> rig.deliveries.find(id).orElseThrow().attempts() > 11);
    assertThat(rig.deliveries.find(id).orElseThrow().state().isFinal()).isFalse();

    longAgo(rig, "update delivery_attempt set started_at = :then where number = 1");
    assertThat(rig.await(id, DeliveryState.GIVEN_UP).reason()).contains("Tried long enough");
  }

  private static void longAgo(Rig rig, String sql) {
    Instant then = Instant.now().minus(Duration.ofDays(30));
    JdbcClient.create(rig.database).sql(sql).param("then", then.atOffset(ZoneOffset.UTC)).update();
  }
}
