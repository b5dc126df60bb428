package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.KeptRecords;
import org.intercusp.exchange.KeptRecords.Manner;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.Attempt;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Another instance takes the lane while a write is under way, as after a pause of a process. */
class LostLeaseTest extends DeliveryRig {

  private final AtomicInteger writes = new AtomicInteger();

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whoLostItEndsNothingAndTheNextFindsWhatIsThere(Databases kind) {
    KeptRecords kept = new KeptRecords(Manner.TRANSACTION);
    Rig rig = new Rig(kind.fresh());
    hospital.always(
        one -> true,
        (one, real) -> {
          Said said = kept.answer(one);
          if (one.isWrite() && writes.getAndIncrement() == 0) {
            takeEveryLane(rig);
            // Longer than until the next sign of life.
            rig.pause(1_000);
          }
          return said;
        });
    String id = rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");
    rig.start();

    rig.eventually(() -> writes.get() > 0);
    rig.pause(1_500);
    Delivery between = rig.deliveries.find(id).orElseThrow();
    assertThat(between.state())
        .as("whose lane it is not ends nothing")
        .isEqualTo(DeliveryState.UNDER_WAY);
    assertThat(rig.count("delivered_resource")).isZero();

    JdbcClient.create(rig.database)
        .sql("update delivery_lane set holder = null where holder = 'another'")
        .update();
    Delivery delivered = rig.await(id, DeliveryState.DELIVERED);
    List<Attempt> attempts = rig.deliveries.attempts(id);
    assertThat(delivered.attempts()).isEqualTo(2);
    assertThat(attempts).hasSize(2);
    assertThat(writes).as("all of it was there").hasValue(1);
    assertThat(kept.current()).hasSizeGreaterThan(40);
    assertThat(rig.count("delivered_resource")).isPositive();
  }

  private static void takeEveryLane(Rig rig) {
    JdbcClient.create(rig.database)
        .sql(
            "update delivery_lane set holder = 'another', fence = fence + 1,"
                + " until = current_timestamp + interval '1' day")
        .update();
  }
}
