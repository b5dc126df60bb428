package org.intercusp.exchange;

import com.github.kagkarlsson.scheduler.Scheduler;
import com.github.kagkarlsson.scheduler.SchedulerName;
import com.github.kagkarlsson.scheduler.task.CompletionHandler;
import com.github.kagkarlsson.scheduler.task.FailureHandler;
import com.github.kagkarlsson.scheduler.task.TaskInstance;
import com.github.kagkarlsson.scheduler.task.helper.CustomTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.FixedDelay;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import javax.sql.DataSource;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.EmbeddedDatabase;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.audit.AuditTrail;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Wakes deliveries when they are due and hands them to workers. Any number of instances may share
 * one PostgreSQL database; an embedded database serves one instance alone.
 */
public final class Clockwork implements AutoCloseable {

  private static final String TASK = "delivery";

  /** Signs of life an instance may miss before its work is taken over; the library's least is 4. */
  private static final int MISSED = 4;

  private static final Duration PATIENCE_AT_THE_END = Duration.ofSeconds(20);

  private final DataSource database;
  private final Courier courier;
  private final Scheduler scheduler;

  /** For a program that one person runs for themselves. */
  public Clockwork(
      DataSource database,
      TreatmentArchive archive,
      Recipients recipients,
      Clearance clearance,
      RecordsClient client,
      DeliverySettings settings,
      Clock clock) {
    this(
        database,
        archive,
        recipients,
        clearance,
        client,
        settings,
        new AuditTrail(database, CurrentCaller.withoutLogin(), clock),
        DeliveryMeters.unwatched(database, recipients, clock),
        clock);
  }

  /** For a service where people log in: its workers are callers with a name of their own. */
  public Clockwork(
      DataSource database,
      TreatmentArchive archive,
      Recipients recipients,
      Clearance clearance,
      RecordsClient client,
      DeliverySettings settings,
      AuditTrail trail,
      DeliveryMeters meters,
      Clock clock) {
    this.database = database;
    Errand errand = new Errand(archive, clearance, client);
    this.courier = new Courier(database, errand, recipients, settings, trail, meters, clock);
    this.scheduler =
        Scheduler.create(database, task(settings.firstWait()))
            .threads(settings.workers())
            .pollingInterval(settings.polling())
            .heartbeatInterval(settings.lease().dividedBy(MISSED))
            .missedHeartbeatsLimit(MISSED)
            .shutdownMaxWait(PATIENCE_AT_THE_END)
            .schedulerName(new SchedulerName.Fixed(UUID.randomUUID().toString()))
            .build();
  }

  static TaskInstance<Void> wakeUp(String delivery) {
    return new TaskInstance<>(TASK, delivery);
  }

  private CustomTask<Void> task(Duration afterFailure) {
    return Tasks.custom(TASK, Void.class)
        .onDeadExecutionRevive()
        .onFailure(new FailureHandler.OnFailureReschedule<>(FixedDelay.of(afterFailure)))
        .execute((wakeUp, context) -> next(courier.run(wakeUp.getId())));
  }

  private static CompletionHandler<Void> next(Optional<Instant> when) {
    return (complete, operations) -> {
      if (when.isPresent()) {
        operations.reschedule(complete, when.get());
      } else {
        operations.remove();
      }
    };
  }

  /** Begins to work. */
  public void start() {
    if (EmbeddedDatabase.isFile(database)) {
      // Whoever had leases or work in hand had this database open, so it has ended.
      courier.releaseAll();
      JdbcClient.create(database)
          .sql(
              "update scheduled_tasks set picked = false, picked_by = null,"
                  + " last_heartbeat = null, version = version + 1 where picked = true")
          .update();
    }
    scheduler.start();
  }

  /**
   * Ends: what is under way may finish for a short while, the rest goes on after the next start.
   */
  @Override
  public void close() {
    scheduler.stop();
    courier.close();
  }
}
