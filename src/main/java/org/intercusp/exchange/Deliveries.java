package org.intercusp.exchange;

import com.github.kagkarlsson.scheduler.SchedulerClient;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import javax.sql.DataSource;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.datasource.TransactionAwareDataSourceProxy;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * The durable deliveries: one for each version of a treatment and each recipient. Asking again for
 * one gives the one there is. Queueing takes part in the caller's transaction on the same {@link
 * DataSource}, the wake-up of the {@link Clockwork} included.
 */
public final class Deliveries {

  /** The longest list; common practice, no source. */
  public static final int LONGEST_LIST = 500;

  private final DeliveryRows rows;
  private final TreatmentArchive archive;
  private final Recipients recipients;
  private final Clearance clearance;
  private final SchedulerClient wakeUps;
  private final TransactionTemplate transaction;
  private final TransactionTemplate savepoint;
  private final Clock clock;

  public Deliveries(
      DataSource database,
      TreatmentArchive archive,
      Recipients recipients,
      Clearance clearance,
      Clock clock) {
    this.rows = new DeliveryRows(database);
    this.archive = archive;
    this.recipients = recipients;
    this.clearance = clearance;
    this.clock = clock;
    this.wakeUps =
        SchedulerClient.Builder.create(new TransactionAwareDataSourceProxy(database)).build();
    JdbcTransactionManager manager = new JdbcTransactionManager(database);
    this.transaction = new TransactionTemplate(manager);
    this.savepoint = new TransactionTemplate(manager);
    savepoint.setPropagationBehavior(TransactionDefinition.PROPAGATION_NESTED);
  }

  /** Queues a version of a treatment for a recipient, unless it may not go there. */
  public Queueing queue(TreatmentKey key, int version, String recipient) {
    return Objects.requireNonNull(transaction.execute(status -> queued(key, version, recipient)));
  }

  private Queueing queued(TreatmentKey key, int version, String recipient) {
    Optional<Recipient> to = recipients.named(recipient);
    Optional<StoredTreatment> stored = archive.version(key, version);
    if (to.isEmpty() || stored.isEmpty()) {
      return to.isEmpty()
          ? new Queueing.UnknownRecipient(recipient)
          : new Queueing.NoSuchTreatment();
    }
    Optional<Delivery> existing = rows.find(key, version, recipient);
    if (existing.isPresent()) {
      return new Queueing.Existing(existing.get());
    }
    Clearance.Answer answer = clearance.clear(stored.get(), to.get().scope());
    if (answer instanceof Clearance.Answer.Stopped stopped) {
      return new Queueing.Stopped(recipient, stopped.findings());
    }
    String patient = Parcel.patientDigest(((Clearance.Answer.Ready) answer).transaction());
    Delivery delivery = fresh(key, version, recipient);
    try {
      savepoint.executeWithoutResult(status -> rows.add(delivery, patient));
    } catch (DuplicateKeyException e) {
      return new Queueing.Existing(rows.find(key, version, recipient).orElseThrow());
    }
    wake(delivery.id(), delivery.queuedAt());
    return new Queueing.Queued(delivery);
  }

  private Delivery fresh(TreatmentKey key, int version, String recipient) {
    Instant now = now();
    return new Delivery(
        UUID.randomUUID().toString(),
        key,
        version,
        recipient,
        DeliveryState.QUEUED,
        "",
        now,
        now,
        now,
        0);
  }

  /** Tries a delivery again at once that waits, was refused, held or given up. */
  public Optional<Delivery> retry(String id) {
    return Objects.requireNonNull(
        transaction.execute(
            status -> {
              Optional<Delivery> found = rows.find(id);
              boolean may =
                  found
                      .filter(one -> one.state() != DeliveryState.DELIVERED)
                      .filter(one -> one.state() != DeliveryState.UNDER_WAY)
                      .isPresent();
              if (may) {
                Instant now = now();
                rows.move(id, DeliveryState.QUEUED, "", now, now);
                wake(id, now);
              }
              return rows.find(id);
            }));
  }

  private void wake(String id, Instant when) {
    if (!wakeUps.scheduleIfNotExists(Clockwork.wakeUp(id), when)) {
      wakeUps.reschedule(Clockwork.wakeUp(id), when);
    }
  }

  /** One delivery. */
  public Optional<Delivery> find(String id) {
    return rows.find(id);
  }

  /** The deliveries of a treatment, the newest first. */
  public List<Delivery> of(TreatmentKey key) {
    return rows.of(key);
  }

  /** All deliveries, the newest first, {@code length} of them after {@code offset}. */
  public List<Delivery> newest(int offset, int length) {
    if (offset < 0 || length < 1 || length > LONGEST_LIST) {
      throw new IllegalArgumentException("A list has 1 to " + LONGEST_LIST + " deliveries");
    }
    return rows.newest(offset, length);
  }

  /** How many are in a state. */
  public long count(DeliveryState state) {
    return rows.count(state);
  }

  /** The tries of a delivery, the first one first. */
  public List<Attempt> attempts(String id) {
    return rows.attempts(id);
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
