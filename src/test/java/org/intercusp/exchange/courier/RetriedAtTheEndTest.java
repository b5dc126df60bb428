package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import io.micrometer.core.instrument.Meter;
import io.micrometer.core.instrument.Timer;
import io.micrometer.core.instrument.cumulative.CumulativeTimer;
import io.micrometer.core.instrument.distribution.DistributionStatisticConfig;
import io.micrometer.core.instrument.distribution.pause.PauseDetector;
import io.micrometer.core.instrument.simple.SimpleMeterRegistry;
import java.time.Clock;
import java.time.Duration;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import javax.sql.DataSource;
import org.hl7.fhir.r4.model.Patient;
import org.intercusp.archive.Databases;
import org.intercusp.exchange.Clients;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.DeliveryState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** A delivery that is asked for while a worker ends is woken for it, and none sleeps for ever. */
class RetriedAtTheEndTest extends DeliveryRig {

  private final FakeRecords records = new FakeRecords(hospital);
  private final CountDownLatch ended = new CountDownLatch(1);
  private final CountDownLatch asked = new CountDownLatch(1);

  @ParameterizedTest
  @MethodSource(DATABASES)
  void askedForBetweenItsEndAndTheWakeUps(Databases kind) throws InterruptedException {
    DataSource database = kind.fresh();
    Rig rig = new Rig(database);
    String id = rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");
    wrong.set(true);
    start(rig, Duration.ofMinutes(5));
    assertThat(ended.await(30, TimeUnit.SECONDS)).isTrue();
    assertThat(rig.deliveries.find(id).orElseThrow().state()).isEqualTo(DeliveryState.HELD);

    wrong.set(false);
    new TransactionTemplate(new JdbcTransactionManager(database))
        .executeWithoutResult(
            status -> {
              assertThat(rig.deliveries.retry(id)).isPresent();
              asked.countDown();
              // The worker comes to its end meanwhile, or waits for this one's.
              rig.pause(500);
            });
    assertThat(rig.await(id, DeliveryState.DELIVERED).attempts()).isEqualTo(2);
    assertThat(records.find(Patient.class, "")).isNotNull();
  }

  @Test
  void whatNothingWouldWakeIsWokenWhenItIsDue() {
    DataSource database = Databases.H2.fresh();
    Rig rig = new Rig(database);
    String id = rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");
    String later = rig.queued(rig.store(Parcels.unheardOf()), 1, "referrer");
    JdbcClient jdbc = JdbcClient.create(database);
    jdbc.sql("update delivery set due_at = dateadd(day, 1, due_at) where id = ?")
        .param(later)
        .update();
    jdbc.sql("delete from scheduled_tasks").update();
    asked.countDown();
    start(rig, QUICK.lease());
    rig.await(id, DeliveryState.DELIVERED);
    rig.eventually(() -> rig.count("scheduled_tasks") == 1);
    assertThat(rig.deliveries.find(later).orElseThrow().state()).isEqualTo(DeliveryState.QUEUED);
  }

  private void start(Rig rig, Duration lease) {
    Clock clock = Clock.systemUTC();
    Clockwork clockwork =
        Clockwork.of(
                rig.database,
                new Clockwork.Sending(
                    rig.archive, recipients, gate, Clients.within(Duration.ofSeconds(30))),
                leased(lease),
                clock)
            .metered(new DeliveryMeters(new Holding(), rig.database, recipients, clock))
            .build();
    open.add(clockwork);
    clockwork.start();
  }

  private static DeliverySettings leased(Duration lease) {
    return new DeliverySettings(
        QUICK.workers(),
        QUICK.perRecipient(),
        QUICK.polling(),
        lease,
        QUICK.firstWait(),
        QUICK.longestWait(),
        QUICK.longestTime(),
        QUICK.contentions(),
        QUICK.settling());
  }

  /** Holds the worker where it has written down what came of a try, until somebody has asked. */
  private final class Holding extends SimpleMeterRegistry {

    @Override
    protected Timer newTimer(
        Meter.Id name, DistributionStatisticConfig config, PauseDetector pauses) {
      return new CumulativeTimer(name, clock, config, pauses, getBaseTimeUnit(), false) {
        @Override
        protected void recordNonNegative(long amount, TimeUnit unit) {
          ended.countDown();
          try {
            assertThat(asked.await(30, TimeUnit.SECONDS)).isTrue();
          } catch (InterruptedException e) {
            throw new IllegalStateException(e);
          }
        }
      };
    }
  }
}
