package org.intercusp.exchange.queue;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import javax.sql.DataSource;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Outcome;
import org.intercusp.audit.Thing;
import org.intercusp.conformance.NotConformant;
import org.intercusp.exchange.recipient.Clearance;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * The durable deliveries: one for each version of a treatment and each recipient. A caller finds
 * those of the clinics in their reach. Asking again for one gives the one there is. Queueing takes
 * part in the caller's transaction on the same {@link DataSource}, the wake-up of the workers
 * included.
 */
public final class Deliveries {

  /** The longest list; common practice, no source. */
  public static final int LONGEST_LIST = 500;

  private static final String DELIVERY = "Delivery";

  private final DeliveryRows rows;
  private final LedgerRows ledgers;
  private final AuditTrail trail;
  private final TreatmentArchive archive;
  private final Recipients recipients;
  private final Clearance clearance;
  private final Adding adding;
  private final TransactionTemplate transaction;
  private final Clock clock;

  /** For a program that one person runs for themselves: they reach everything. */
  public Deliveries(
      DataSource database,
      TreatmentArchive archive,
      Recipients recipients,
      Clearance clearance,
      Clock clock) {
    this(
        database,
        archive,
        recipients,
        clearance,
        new AuditTrail(database, CurrentCaller.withoutLogin(), clock),
        clock);
  }

  /** For callers who reach what is theirs. */
  public Deliveries(
      DataSource database,
      TreatmentArchive archive,
      Recipients recipients,
      Clearance clearance,
      AuditTrail trail,
      Clock clock) {
    this.trail = trail;
    this.rows = new DeliveryRows(database, trail.callers());
    this.ledgers = new LedgerRows(database);
    this.archive = archive;
    this.recipients = recipients;
    this.clearance = clearance;
    this.clock = clock;
    this.adding = new Adding(database, rows, trail, clock);
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
  }

  /**
   * Judges a version that is about to be stored, so that queueing it finds it judged: storing holds
   * the filing of its whole clinic until the transaction ends, and judging takes longer than that.
   */
  public void foresee(StoredTreatment coming, Collection<String> asked) {
    boolean harm = clearance.bringsHarm(coming, Optional::empty);
    for (Recipient recipient : recipients.all()) {
      if (harm || asked.contains(recipient.name())) {
        try {
          clearance.clear(coming, recipient.scope());
        } catch (NotConformant e) {
          // Said when it is queued, unless storing refuses it first.
          return;
        }
      }
    }
  }

  /** Queues a version of a treatment for a recipient, unless it may not go there. */
  public Queueing queue(TreatmentKey key, int version, String recipient) {
    return Objects.requireNonNull(transaction.execute(status -> queued(key, version, recipient)));
  }

  private Queueing queued(TreatmentKey key, int version, String recipient) {
    Optional<Recipient> to = recipients.named(recipient);
    Optional<StoredTreatment> newest = archive.current(key);
    Optional<StoredTreatment> stored =
        newest.flatMap(one -> one.version() == version ? newest : archive.version(key, version));
    if (to.isEmpty() || stored.isEmpty()) {
      return to.isEmpty()
          ? new Queueing.UnknownRecipient(recipient)
          : new Queueing.NoSuchTreatment();
    }
    Optional<Delivery> existing = rows.find(key, version, recipient);
    Clearance.Answer answer = clearance.clear(stored.get(), newest.get(), to.get().scope());
    if (existing.isPresent()) {
      return existing(existing.get(), answer);
    }
    if (answer instanceof Clearance.Answer.Stopped stopped) {
      return stopped(stored.get(), to.get(), stopped);
    }
    Bundle transaction = ((Clearance.Answer.Ready) answer).transaction();
    return adding.add(key, version, recipient, adding.now(), transaction);
  }

  /** Whatever stops a version, who holds the treatment is told on its day that consent ends. */
  private Queueing stopped(StoredTreatment stored, Recipient to, Clearance.Answer.Stopped stopped) {
    TreatmentKey key = stored.key();
    Optional<Clearance.Ended> ended = ended(stored, to);
    Optional<Queueing> told = ended.map(one -> told(stored, to.name(), one));
    boolean today = ended.filter(one -> !one.begins(clock).isAfter(adding.now())).isPresent();
    if (today && ledgers.holds(to.name(), key)) {
      return told.orElseThrow();
    }
    Thing treatment = Thing.of("Treatment", key.reached(), key.treatment());
    Thing version = treatment.version(stored.version()).to(to.name());
    trail.ended(Deed.QUEUE, Outcome.REFUSED, version, "may not go");
    return new Queueing.Stopped(to.name(), stopped.findings());
  }

  /** One that waits for the day when consent ends goes at once where it may and is asked for. */
  private Queueing existing(Delivery delivery, Clearance.Answer answer) {
    Instant due = delivery.dueAt();
    boolean later =
        delivery.state() == DeliveryState.QUEUED && due != null && due.isAfter(adding.now());
    if (!later || answer instanceof Clearance.Answer.Stopped) {
      return new Queueing.Existing(delivery);
    }
    return new Queueing.Existing(adding.again(delivery));
  }

  private Optional<Clearance.Ended> ended(StoredTreatment stored, Recipient to) {
    String name = to.name();
    return ledgers.holds(name, stored.key()) || ledgers.awaits(name, stored.key())
        ? clearance.ended(stored, to.scope())
        : Optional.empty();
  }

  /** Queues a version that brings harm for all others that may have it, and tells which. */
  public List<Queueing> alarm(StoredTreatment stored, Collection<String> asked) {
    if (!clearance.bringsHarm(stored, () -> archive.version(stored.key(), stored.version() - 1))) {
      return List.of();
    }
    return recipients.all().stream()
        .map(Recipient::name)
        .filter(name -> !asked.contains(name))
        .map(name -> queue(stored.key(), stored.version(), name))
        .filter(one -> one instanceof Queueing.Queued || one instanceof Queueing.Existing)
        .toList();
  }

  /**
   * Queues, for the day on which consent ends, that every recipient who was given the treatment, or
   * may be at this moment, and whom consent does not cover any more is told so.
   *
   * @param stored the newest version
   * @param asked recipients it is queued for anyway
   */
  public List<Queueing> tell(StoredTreatment stored, Collection<String> asked) {
    List<Queueing> told = new ArrayList<>();
    for (Recipient recipient : recipients.all()) {
      if (!asked.contains(recipient.name())) {
        ended(stored, recipient)
            .ifPresent(ended -> told.add(told(stored, recipient.name(), ended)));
      }
    }
    return told;
  }

  private Queueing told(StoredTreatment stored, String recipient, Clearance.Ended ended) {
    Instant day = ended.begins(clock);
    Instant due = day.isAfter(adding.now()) ? day : adding.now();
    return adding.add(stored.key(), stored.version(), recipient, due, ended.transaction());
  }

  /** Tries a delivery again at once that waits, was refused, held or given up. */
  public Optional<Delivery> retry(String id) {
    return Objects.requireNonNull(
        transaction.execute(
            status -> {
              Optional<Delivery> found = rows.find(id);
              Optional<Delivery> asleep =
                  found
                      .filter(one -> one.state() != DeliveryState.DELIVERED)
                      .filter(one -> one.state() != DeliveryState.UNDER_WAY);
              asleep.ifPresent(one -> trail.done(Deed.QUEUE, thing(one), "again"));
              return asleep.map(adding::again).or(() -> found);
            }));
  }

  /** Named by the treatment that it carries and who it goes to. */
  public static Thing thing(Delivery delivery) {
    TreatmentKey key = delivery.treatment();
    return Thing.of(DELIVERY, key.reached(), key.treatment())
        .version(delivery.version())
        .to(delivery.recipient());
  }

  /** One delivery. */
  public Optional<Delivery> find(String id) {
    Optional<Delivery> found = rows.find(id);
    found.ifPresent(delivery -> trail.seen(Deed.READ, thing(delivery)));
    return found;
  }

  /** The deliveries of a treatment, the newest first. */
  public List<Delivery> of(TreatmentKey key) {
    trail.seen(Deed.SEARCH, Thing.of(DELIVERY, key.reached(), key.treatment()));
    return rows.of(key);
  }

  /** All deliveries, the newest first, {@code length} of them after {@code offset}. */
  public List<Delivery> newest(int offset, int length) {
    if (offset < 0 || length < 1 || length > LONGEST_LIST) {
      throw new IllegalArgumentException("A list has 1 to " + LONGEST_LIST + " deliveries");
    }
    trail.done(Deed.SEARCH, Thing.list(DELIVERY));
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
}
