package org.intercusp.exchange.courier;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Semaphore;
import java.util.concurrent.ThreadLocalRandom;
import javax.sql.DataSource;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Visit;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Outcome;
import org.intercusp.exchange.proposal.Telling;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryRows;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Ending;
import org.intercusp.exchange.queue.Lanes;
import org.intercusp.exchange.queue.LedgerRows;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.DeliveryReport;
import org.intercusp.exchange.records.Ledger;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Works on one delivery at a time: takes the lane, tries, writes down what came of it. Whatever
 * stops it in between, the next one who takes the lane looks at the recipient before writing.
 */
final class Courier {

  /** How long until a busy lane or recipient is looked at again; common practice, no source. */
  private static final Duration SOON = Duration.ofMillis(250);

  static final Caller WORKER = Caller.worker("delivery-worker");

  private final AuditTrail trail;
  private final DeliveryMeters meters;
  private final DeliveryRows rows;
  private final LedgerRows ledgers;
  private final Errand errand;
  private final Recipients recipients;
  private final DeliverySettings settings;
  private final Clock clock;
  private final TransactionTemplate transaction;
  private final Leases leases;
  private final Map<String, Semaphore> room = new ConcurrentHashMap<>();
  private final Pauses pauses = new Pauses();
  private final Patience patience;
  private final UnansweredRows unanswered;
  private final OtherVersions others;
  private final Telling telling;

  Courier(
      DataSource database,
      Errand errand,
      Recipients recipients,
      DeliverySettings settings,
      AuditTrail trail,
      DeliveryMeters meters,
      Clock clock) {
    this.trail = trail;
    this.meters = meters;
    this.rows = new DeliveryRows(database, trail.callers());
    this.ledgers = new LedgerRows(database);
    this.unanswered = new UnansweredRows(database);
    this.others = new OtherVersions(database);
    this.telling = new Telling(database, trail, clock);
    this.errand = errand;
    this.recipients = recipients;
    this.settings = settings;
    this.clock = clock;
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
    this.leases = new Leases(new Lanes(database), settings.lease());
    this.patience = new Patience(rows, settings, clock);
  }

  /** Tries a delivery; when to come again, empty when nothing more happens by itself. */
  Optional<Instant> run(String id) {
    CurrentCaller callers = trail.callers();
    return callers.as(
        WORKER, () -> callers.as(new Visit(WORKER, "", rows.trace(id)), () -> tried(id)));
  }

  private Optional<Instant> tried(String id) {
    Optional<Delivery> found = rows.find(id).filter(one -> !one.state().isFinal());
    if (found.isEmpty()) {
      return Optional.empty();
    }
    Delivery delivery = found.get();
    Optional<Recipient> recipient = recipients.named(delivery.recipient());
    if (recipient.isEmpty()) {
      rows.move(id, DeliveryState.HELD, "The recipient is no longer configured", now(), null);
      return Optional.empty();
    }
    Duration pause = pauses.left(delivery.recipient());
    if (!pause.isZero()) {
      return Optional.of(now().plus(pause).plusMillis(ThreadLocalRandom.current().nextInt(1_000)));
    }
    Semaphore places =
        room.computeIfAbsent(
            delivery.recipient(), name -> new Semaphore(settings.perRecipient(), true));
    if (!places.tryAcquire()) {
      return soon();
    }
    try {
      return inLane(delivery, recipient.get());
    } finally {
      places.release();
    }
  }

  private Optional<Instant> inLane(Delivery delivery, Recipient recipient) {
    Optional<Leases.Lease> taken = leases.take(recipient.name(), rows.patient(delivery.id()));
    if (taken.isEmpty()) {
      return soon();
    }
    try (Leases.Lease lease = taken.get()) {
      Optional<Delivery> begun = begun(delivery.id(), lease);
      if (begun.isEmpty()) {
        // Another version of the treatment is under way, or this one came to its end.
        return rows.find(delivery.id()).filter(one -> !one.state().isFinal()).flatMap(o -> soon());
      }
      return tried(begun.get(), recipient, lease);
    }
  }

  private Optional<Instant> tried(Delivery begun, Recipient recipient, Leases.Lease lease) {
    try (Try one = new Try(unanswered, leases, settings.settling(), begun, lease)) {
      Ledger ledger = ledgers.read(recipient.name(), begun.treatment());
      long start = System.nanoTime();
      Ending ending =
          errand.run(
              begun,
              recipient,
              ledger,
              () -> one.past(errand.bundles(begun, recipient, one.perhapsHeld())));
      Duration took = Duration.ofNanos(System.nanoTime() - start);
      boolean heard = !one.isUnanswered() || ending.state() == DeliveryState.DELIVERED;
      return lease.isLost()
          ? soon()
          : ended(begun, recipient, lease, new Tried(ending, heard, took));
    }
  }

  /**
   * What came of a try.
   *
   * @param heard whether all that it wrote was answered
   */
  private record Tried(Ending ending, boolean heard, Duration took) {}

  /** Reads it anew, now that nobody else works on it, and begins the attempt. */
  private Optional<Delivery> begun(String id, Leases.Lease lease) {
    return Objects.requireNonNull(
        transaction.execute(
            status -> {
              Delivery now = rows.find(id).orElseThrow();
              if (now.state().isFinal()) {
                return Optional.<Delivery>empty();
              }
              Optional<Integer> newer = rows.newer(now, now());
              if (newer.isPresent()) {
                String reason = "Overtaken by version " + newer.get();
                rows.move(id, DeliveryState.GIVEN_UP, reason, now(), null);
                return Optional.<Delivery>empty();
              }
              boolean may = !others.isUnderWay(now) && rows.begin(now, lease.fence(), now());
              return may ? Optional.of(now) : Optional.<Delivery>empty();
            }));
  }

  private Optional<Instant> ended(
      Delivery delivery, Recipient recipient, Leases.Lease lease, Tried tried) {
    Ending ending = patience.with(delivery, tried.ending());
    Instant due = ending.state().isFinal() ? null : patience.due(delivery, ending);
    pauseOrResume(recipient.name(), ending, due);
    DeliveryReport report = ending.report();
    Boolean taken =
        transaction.execute(
            status -> {
              boolean tells = telling.begins(delivery, ending);
              boolean ours = rows.end(delivery, lease.fence(), ending, now(), due);
              if (ours && report != null) {
                ledgers.write(recipient.name(), delivery.treatment(), report.ledger());
              }
              if (ours && tried.heard()) {
                unanswered.end(delivery);
              }
              if (ours && tells) {
                telling.tell(delivery, recipient, ending);
              }
              if (ours) {
                trail.ended(Deed.DISCLOSE, outcome(ending), Deliveries.thing(delivery), "");
              }
              return ours;
            });
    if (!Boolean.TRUE.equals(taken)) {
      return soon();
    }
    Duration age = Duration.between(delivery.queuedAt(), now());
    meters.ended(recipient.name(), ending.state(), tried.took(), age);
    return Optional.ofNullable(due);
  }

  private static Outcome outcome(Ending ending) {
    if (ending.state() == DeliveryState.DELIVERED) {
      return Outcome.SUCCESS;
    }
    boolean refused =
        ending.state() == DeliveryState.REFUSED
            || ending.state() == DeliveryState.HELD
            || ending.state() == DeliveryState.QUEUED;
    return refused ? Outcome.REFUSED : Outcome.FAILED;
  }

  private void pauseOrResume(String recipient, Ending ending, @Nullable Instant due) {
    if (due != null && ending.isUnreached()) {
      pauses.begin(recipient, Duration.between(now(), due));
    } else {
      pauses.end(recipient);
    }
  }

  private Optional<Instant> soon() {
    return Optional.of(now().plus(SOON));
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }

  void releaseAll() {
    leases.releaseAll();
  }

  void close() {
    leases.close();
  }
}
