package org.intercusp.exchange.courier;

import com.github.kagkarlsson.scheduler.Scheduler;
import com.github.kagkarlsson.scheduler.SchedulerName;
import com.github.kagkarlsson.scheduler.task.CompletionHandler;
import com.github.kagkarlsson.scheduler.task.FailureHandler;
import com.github.kagkarlsson.scheduler.task.helper.CustomTask;
import com.github.kagkarlsson.scheduler.task.helper.RecurringTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import com.github.kagkarlsson.scheduler.task.schedule.FixedDelay;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import javax.sql.DataSource;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.EmbeddedDatabase;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.proposal.Poller;
import org.intercusp.exchange.queue.WakeUps;
import org.intercusp.exchange.recipient.Clearance;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.RecordsClient;
import org.intercusp.exchange.wire.Daemons;
import org.intercusp.finding.FaultPlace;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.dao.DataAccessException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.datasource.TransactionAwareDataSourceProxy;
import org.springframework.transaction.TransactionException;

/**
 * Wakes deliveries when they are due and hands them to workers. Any number of instances may share
 * one PostgreSQL database; an embedded database serves one instance alone.
 */
public final class Clockwork implements AutoCloseable {

  private static final Logger LOG = LoggerFactory.getLogger(Clockwork.class);

  /** Signs of life an instance may miss before its work is taken over; the library's least is 4. */
  private static final int MISSED = 4;

  /** How long a stop waits for what is under way; common practice, no source. */
  private static final Duration PATIENCE_AT_THE_END = Duration.ofSeconds(20);

  private final DataSource database;
  private final Courier courier;
  private final Scheduler scheduler;
  private final WrongTimes times;
  private final WakeUpsEnd ends;
  private final MissingWakeUps missing;
  private final Clock clock;
  private final Duration lease;
  private final ScheduledExecutorService watch =
      Executors.newSingleThreadScheduledExecutor(Daemons.named("delivery-times"));
  private @Nullable ScheduledFuture<?> looking;

  /** What is sent, to whom, by whose leave and by what. */
  public record Sending(
      TreatmentArchive archive, Recipients recipients, Clearance clearance, RecordsClient client) {}

  /**
   * Begins to put one together. What is not given is as for a program that one person runs for
   * themselves: nobody logs in, nobody watches, and no recipient is asked for changes.
   */
  public static Builder of(
      DataSource database, Sending sending, DeliverySettings settings, Clock clock) {
    return new Builder(database, sending, settings, clock);
  }

  /** Puts a clockwork together. */
  public static final class Builder {

    private final DataSource database;
    private final Sending sending;
    private final DeliverySettings settings;
    private final Clock clock;
    private AuditTrail trail;
    private DeliveryMeters meters;
    private @Nullable Poller poller;

    private Builder(DataSource database, Sending sending, DeliverySettings settings, Clock clock) {
      this.database = database;
      this.sending = sending;
      this.settings = settings;
      this.clock = clock;
      this.trail = new AuditTrail(database, CurrentCaller.withoutLogin(), clock);
      this.meters = DeliveryMeters.unwatched(database, sending.recipients(), clock);
    }

    /** Records what the workers do, who are callers with a name of their own. */
    public Builder audited(AuditTrail here) {
      this.trail = here;
      return this;
    }

    /** Counts what the workers do. */
    public Builder metered(DeliveryMeters by) {
      this.meters = by;
      return this;
    }

    /** Also wakes what asks recipients for changes. */
    public Builder polling(Poller with) {
      this.poller = with;
      return this;
    }

    /** A clockwork that is still to be started. */
    public Clockwork build() {
      return new Clockwork(this);
    }
  }

  private Clockwork(Builder parts) {
    DeliverySettings settings = parts.settings;
    Sending sending = parts.sending;
    this.database = parts.database;
    this.clock = parts.clock;
    this.lease = settings.lease();
    this.times = new WrongTimes(database, lease, clock);
    this.ends = new WakeUpsEnd(database, parts.trail.callers(), clock);
    this.missing = new MissingWakeUps(database, clock);
    Errand errand = new Errand(sending.archive(), sending.clearance(), sending.client(), clock);
    this.courier =
        new Courier(
            database, errand, sending.recipients(), settings, parts.trail, parts.meters, clock);
    this.scheduler =
        Scheduler.create(new TransactionAwareDataSourceProxy(database), task(settings.firstWait()))
            .clock(clock::instant)
            .startTasks(parts.poller == null ? List.of() : polls(parts.poller))
            .threads(settings.workers())
            .pollingInterval(settings.polling())
            .heartbeatInterval(lease.dividedBy(MISSED))
            .missedHeartbeatsLimit(MISSED)
            .shutdownMaxWait(PATIENCE_AT_THE_END)
            .schedulerName(new SchedulerName.Fixed(UUID.randomUUID().toString()))
            .build();
  }

  private CustomTask<Void> task(Duration afterFailure) {
    return Tasks.custom(WakeUps.TASK, Void.class)
        .onDeadExecutionRevive()
        .onFailure(new FailureHandler.OnFailureReschedule<>(FixedDelay.of(afterFailure)))
        .execute((wakeUp, context) -> run(wakeUp.getId()));
  }

  private CompletionHandler<Void> run(String delivery) {
    Instant began = clock.instant();
    return ends.after(delivery, began, courier.run(delivery));
  }

  /** One for each recipient that is asked, over all instances. */
  private static List<RecurringTask<Void>> polls(Poller poller) {
    List<RecurringTask<Void>> polls = new ArrayList<>();
    for (Recipient recipient : poller.asked()) {
      Duration every = Objects.requireNonNull(recipient.pollEvery());
      polls.add(
          Tasks.recurring("poll-" + recipient.name(), FixedDelay.of(every))
              .execute((wakeUp, context) -> poller.poll(recipient)));
    }
    return polls;
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
    long period = lease.toMillis();
    looking = watch.scheduleWithFixedDelay(this::putTimesRight, 0, period, TimeUnit.MILLISECONDS);
  }

  private void putTimesRight() {
    try {
      times.putRight();
      int made = missing.make();
      if (made > 0) {
        LOG.warn("{} deliveries had nothing to wake them; they go on", made);
      }
      // The library's own wait goes by the clock: after a jump back it would last that much longer.
      scheduler.triggerCheckForDueExecutions();
    } catch (DataAccessException | TransactionException e) {
      // The database may be back the next time, and nothing else depends on it.
      LOG.warn("Times of deliveries could not be looked at: {}", FaultPlace.of(e));
    }
  }

  /**
   * Ends: what is under way may finish for a short while, the rest goes on after the next start.
   */
  @Override
  public void close() {
    if (looking != null) {
      looking.cancel(false);
    }
    watch.shutdown();
    scheduler.stop();
    courier.close();
  }
}
