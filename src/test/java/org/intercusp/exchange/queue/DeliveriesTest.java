package org.intercusp.exchange.queue;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.List;
import javax.sql.DataSource;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.Parcels;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import tools.jackson.databind.node.ObjectNode;

/** Queueing, the gate and the leases, on both databases. */
class DeliveriesTest extends DeliveryRig {

  @ParameterizedTest
  @MethodSource(DATABASES)
  void queuesOnceForAVersionAndARecipient(Databases kind) {
    Rig rig = new Rig(kind.fresh());
    TreatmentKey key = rig.store(Parcels.unheardOf());

    Queueing first = rig.deliveries.queue(key, 1, "hospital");
    Queueing again = rig.deliveries.queue(key, 1, "hospital");

    Delivery delivery = ((Queueing.Queued) first).delivery();
    assertThat(again).isEqualTo(new Queueing.Existing(delivery));
    assertThat(rig.deliveries.find(delivery.id())).contains(delivery);
    assertThat(rig.deliveries.queue(key, 1, "referrer")).isInstanceOf(Queueing.Queued.class);
    assertThat(rig.deliveries.queue(key, 1, "nobody"))
        .isEqualTo(new Queueing.UnknownRecipient("nobody"));
    assertThat(rig.deliveries.queue(key, 2, "hospital")).isEqualTo(new Queueing.NoSuchTreatment());
    assertThat(rig.deliveries.of(key)).hasSize(2);
    assertThat(rig.deliveries.newest(0, 10)).hasSize(2);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void storesAndQueuesBothOrNeither(Databases kind) {
    DataSource database = kind.fresh();
    Rig rig = new Rig(database);
    ObjectNode file = Parcels.unheardOf();
    TreatmentKey key = TreatmentKey.of(Parcels.read(file));
    StoringAndQueueing intake = new StoringAndQueueing(database, rig.archive, rig.deliveries);
    byte[] content = Parcels.canonical(file).getBytes(StandardCharsets.UTF_8);

    assertThatThrownBy(
            () ->
                new TransactionTemplate(new JdbcTransactionManager(database))
                    .executeWithoutResult(
                        status -> {
                          intake.store(key, content, List.of("hospital"));
                          throw new IllegalStateException("power cut");
                        }))
        .isInstanceOf(IllegalStateException.class);
    assertThat(rig.archive.current(key)).isEmpty();
    assertThat(rig.deliveries.newest(0, 10)).isEmpty();
    assertThat(rig.count("scheduled_tasks")).as("wake-ups").isZero();

    StoringAndQueueing.Taken taken = intake.store(key, content, List.of("hospital", "referrer"));
    assertThat(taken.deliveries()).hasSize(2).allMatch(Queueing.Queued.class::isInstance);
    assertThat(rig.count("scheduled_tasks")).as("wake-ups").isEqualTo(2);
    assertThat(intake.store(key, content, List.of("hospital")).deliveries()).isEmpty();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void asksTheGateWhenQueueingAndAgainBeforeSending(Databases kind) {
    Rig rig = new Rig(kind.fresh());
    TreatmentKey key = rig.store(Parcels.unheardOf());
    consent.set(false);
    assertThat(rig.deliveries.queue(key, 1, "hospital")).isInstanceOf(Queueing.Stopped.class);
    assertThat(rig.deliveries.of(key)).isEmpty();

    consent.set(true);
    String id = rig.queued(key, 1, "hospital");
    consent.set(false);
    rig.start();
    Delivery held = rig.await(id, DeliveryState.HELD);

    assertThat(held.reason()).contains("consent-missing");
    assertThat(hospital.asked()).isEmpty();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whoLostTheLaneWritesDownNothing(Databases kind) {
    DataSource database = kind.fresh();
    Rig rig = new Rig(database);
    String id = rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");
    Lanes lanes = new Lanes(database);
    DeliveryRows rows = new DeliveryRows(database, CurrentCaller.withoutLogin());
    lanes.open("hospital", "p");
    Delivery delivery = rows.find(id).orElseThrow();
    long sleeper = lanes.take("hospital", "p", "sleeper", Duration.ofMillis(1)).orElseThrow();
    rows.begin(delivery, sleeper, delivery.queuedAt());
    rig.pause(20);

    long heir = lanes.take("hospital", "p", "heir", Duration.ofMinutes(1)).orElseThrow();
    Delivery again = rows.find(id).orElseThrow();
    rows.begin(again, heir, delivery.queuedAt());
    Ending ending = Ending.held("late");

    assertThat(heir).isGreaterThan(sleeper);
    assertThat(lanes.renew("hospital", "p", sleeper, Duration.ofMinutes(1))).isFalse();
    assertThat(lanes.take("hospital", "p", "third", Duration.ofMinutes(1))).isEmpty();
    assertThat(rows.end(delivery, sleeper, ending, delivery.queuedAt(), null)).isFalse();
    assertThat(rows.find(id).orElseThrow().state()).isEqualTo(DeliveryState.UNDER_WAY);
    assertThat(rows.end(again, heir, ending, delivery.queuedAt(), null)).isTrue();
    lanes.release("hospital", "p", sleeper);
    assertThat(lanes.take("hospital", "p", "third", Duration.ofMinutes(1))).isEmpty();
    lanes.release("hospital", "p", heir);
    assertThat(lanes.take("hospital", "p", "third", Duration.ofMinutes(1))).isPresent();
  }

  /** Whoever asks again need not wait for the next look at what is due, and leaves a trace. */
  @ParameterizedTest
  @MethodSource(DATABASES)
  void triesAgainAtOnceAndSaysSoInTheTrail(Databases kind) {
    DataSource database = kind.fresh();
    Rig rig = new Rig(database);
    String id = rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");
    JdbcClient jdbc = JdbcClient.create(database);
    String deeds = "audit_event where deed = 'queue'";
    assertThat(rig.count(deeds)).isEqualTo(1);
    jdbc.sql("delete from scheduled_tasks").update();
    jdbc.sql("update delivery set state = 'refused', due_at = null").update();

    assertThat(rig.deliveries.retry(id).orElseThrow().state()).isEqualTo(DeliveryState.QUEUED);
    assertThat(rig.count("scheduled_tasks")).as("wake-ups").isEqualTo(1);
    assertThat(rig.count(deeds)).isEqualTo(2);

    jdbc.sql("update delivery set state = 'delivered', due_at = null").update();
    assertThat(rig.deliveries.retry(id).orElseThrow().state()).isEqualTo(DeliveryState.DELIVERED);
    assertThat(rig.count(deeds)).as("what is not tried again leaves none").isEqualTo(2);
  }
}
