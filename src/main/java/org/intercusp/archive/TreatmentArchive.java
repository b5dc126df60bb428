package org.intercusp.archive;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import java.util.function.Consumer;
import javax.sql.DataSource;
import org.apache.commons.codec.digest.DigestUtils;
import org.intercusp.access.Clinic;
import org.intercusp.access.CurrentCaller;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * The stored treatments, by clinic and id, with every version they ever had. Versions are
 * immutable: replacing adds one. Two callers who replace the same version are told apart, and one
 * of them is refused.
 *
 * <p>A caller finds what belongs to the clinics in their reach; the rest is not there for them.
 * Every reading and writing leaves a record in the trail, or does not come about.
 *
 * <p>Every method takes part in the caller's transaction on the same {@link DataSource}, so that a
 * treatment and what follows from taking it are stored together or not at all; without one it makes
 * its own.
 */
public final class TreatmentArchive {

  /** The longest page; common practice, no source. */
  public static final int LONGEST_PAGE = 500;

  private static final String TREATMENT = "Treatment";

  private final VersionRows rows;
  private final ErasureRows erasure;
  private final AuditTrail trail;
  private final TransactionTemplate transaction;
  private final TransactionTemplate savepoint;
  private final Clock clock;
  private final @Nullable ResourceFiling filing;
  private final Consumer<StoredTreatment> follower;

  /** For a program that one person runs for themselves: they reach everything. */
  public TreatmentArchive(DataSource database, Clock clock) {
    this(database, clock, stored -> {});
  }

  /**
   * The same with a follower.
   *
   * @param follower is handed every version inside the transaction that stores it; what it throws
   *     undoes the storing
   */
  public TreatmentArchive(DataSource database, Clock clock, Consumer<StoredTreatment> follower) {
    this(
        database,
        new AuditTrail(database, CurrentCaller.withoutLogin(), clock),
        clock,
        null,
        follower);
  }

  /** For callers who reach what is theirs. */
  public TreatmentArchive(DataSource database, AuditTrail trail, Clock clock) {
    this(database, trail, clock, null, stored -> {});
  }

  /** For a program that one person runs for themselves, with the resources filed. */
  public static TreatmentArchive filing(DataSource database, Clock clock, Expression expression) {
    AuditTrail trail = new AuditTrail(database, CurrentCaller.withoutLogin(), clock);
    return filing(database, trail, clock, expression, stored -> {});
  }

  /**
   * For callers who reach what is theirs: files the resources of each treatment in the transaction
   * that stores it, and has a follower.
   */
  public static TreatmentArchive filing(
      DataSource database,
      AuditTrail trail,
      Clock clock,
      Expression expression,
      Consumer<StoredTreatment> follower) {
    return new TreatmentArchive(
        database,
        trail,
        clock,
        new ResourceFiling(database, trail.callers(), expression),
        follower);
  }

  private TreatmentArchive(
      DataSource database,
      AuditTrail trail,
      Clock clock,
      @Nullable ResourceFiling filing,
      Consumer<StoredTreatment> follower) {
    this.filing = filing;
    this.follower = follower;
    this.trail = trail;
    this.rows = new VersionRows(database, trail.callers());
    this.erasure = new ErasureRows(database);
    JdbcTransactionManager manager = new JdbcTransactionManager(database);
    this.transaction = new TransactionTemplate(manager);
    // A savepoint, so that a refused row leaves the caller's transaction usable on PostgreSQL.
    this.savepoint = new TransactionTemplate(manager);
    savepoint.setPropagationBehavior(TransactionDefinition.PROPAGATION_NESTED);
    this.clock = clock;
  }

  /**
   * Stores a treatment that is not there yet.
   *
   * @param canonical the bytes of the treatment writer, UTF-8
   * @return {@link Storing.Stored}, {@link Storing.Exists} or {@link Storing.Erased}
   * @throws org.intercusp.access.OutOfReach when the clinic is not the caller's
   */
  public Storing store(TreatmentKey key, byte[] canonical) {
    StoredTreatment first = coming(key, 1, canonical);
    return Objects.requireNonNull(transaction.execute(status -> stored(first)));
  }

  private Storing stored(StoredTreatment first) {
    try {
      savepoint.executeWithoutResult(
          status -> {
            rows.first(first);
            trail.done(Deed.CREATE, thing(first));
          });
    } catch (DuplicateKeyException e) {
      Optional<StoredTreatment> there = current(first.key());
      return there.isPresent() ? new Storing.Exists(there.get()) : new Storing.Erased();
    }
    follow(first);
    return new Storing.Stored(first);
  }

  /**
   * Files the resources of every treatment that was stored without them, and what those are
   * searched by where it stands in an older form.
   *
   * @return how many treatments and resources could not be filed
   */
  public int fileAll() {
    return filing == null ? 0 : filing.fileAll();
  }

  private void follow(StoredTreatment stored) {
    if (filing != null) {
      filing.file(stored.key());
    }
    follower.accept(stored);
  }

  /**
   * Adds a version to a stored treatment.
   *
   * @param expected the version the caller last saw
   * @param canonical the bytes of the treatment writer, UTF-8
   * @return {@link Storing.Stored}, {@link Storing.Same}, {@link Storing.Stale} or {@link
   *     Storing.Absent}
   */
  public Storing replace(TreatmentKey key, int expected, byte[] canonical) {
    return Objects.requireNonNull(
        transaction.execute(status -> replaced(key, expected, canonical)));
  }

  private Storing replaced(TreatmentKey key, int expected, byte[] canonical) {
    Optional<StoredTreatment> current = current(key);
    if (current.isEmpty()) {
      return new Storing.Absent();
    }
    StoredTreatment newest = current.get();
    if (newest.version() != expected) {
      return new Storing.Stale(newest);
    }
    StoredTreatment next = coming(key, expected + 1, canonical);
    if (next.digest().equals(newest.digest())) {
      return new Storing.Same(newest);
    }
    if (!rows.next(next)) {
      return new Storing.Stale(newest(key));
    }
    trail.done(Deed.UPDATE, thing(next));
    follow(next);
    return new Storing.Stored(next);
  }

  /**
   * Erases a treatment with all its versions and resources. What is recorded of deeds stays, and so
   * does the id, which cannot be taken again. Deliveries must be gone before; takes part in the
   * caller's transaction.
   *
   * @return how many versions there were; 0 where there was no such treatment
   * @throws org.intercusp.access.OutOfReach when the clinic is not the caller's
   */
  public int erase(TreatmentKey key) {
    trail.callers().mustReach(key.reached());
    return Objects.requireNonNull(
        transaction.execute(
            status -> {
              int versions = erasure.hold(key);
              if (versions > 0) {
                erasure.erase(key, clock.instant().truncatedTo(ChronoUnit.MICROS));
                trail.done(
                    Deed.DELETE, Thing.of(TREATMENT, key.reached(), key.treatment()), "erased");
              }
              return versions;
            }));
  }

  /** The newest version. */
  public Optional<StoredTreatment> current(TreatmentKey key) {
    return seen(rows.newest(key));
  }

  /** One version. */
  public Optional<StoredTreatment> version(TreatmentKey key, int version) {
    return seen(rows.version(key, version));
  }

  /** All versions, the newest first. */
  public List<StoredTreatment> history(TreatmentKey key) {
    List<StoredTreatment> versions = rows.versions(key);
    if (!versions.isEmpty()) {
      trail.seen(Deed.HISTORY, Thing.of(TREATMENT, key.reached(), key.treatment()));
    }
    return versions;
  }

  /** The clinics in the caller's reach that keep or kept treatments here. */
  public Set<Clinic> clinics() {
    return rows.clinics();
  }

  /** The keys of the treatments that have this id in whichever clinic. */
  public List<TreatmentKey> withId(String treatment) {
    return rows.withId(treatment);
  }

  /**
   * The newest versions in the order of their keys.
   *
   * @param after the last key of the page before; absent for the first page
   * @param length how many at most, up to {@link #LONGEST_PAGE}
   */
  public Page list(@Nullable TreatmentKey after, int length) {
    if (length < 1 || length > LONGEST_PAGE) {
      throw new IllegalArgumentException("A page has 1 to " + LONGEST_PAGE + " treatments");
    }
    List<StoredTreatment> found = rows.page(after, length + 1);
    boolean more = found.size() > length;
    trail.done(Deed.SEARCH, Thing.list(TREATMENT));
    List<StoredTreatment> shown = more ? found.subList(0, length) : found;
    return new Page(shown, more ? shown.get(length - 1).key() : null, rows.count());
  }

  private Optional<StoredTreatment> seen(Optional<StoredTreatment> found) {
    found.ifPresent(stored -> trail.seen(Deed.READ, thing(stored)));
    return found;
  }

  private static Thing thing(StoredTreatment stored) {
    TreatmentKey key = stored.key();
    return Thing.of(TREATMENT, key.reached(), key.treatment()).version(stored.version());
  }

  private StoredTreatment newest(TreatmentKey key) {
    return current(key).orElseThrow();
  }

  /** A version as it would be stored now; nothing is kept. */
  public StoredTreatment coming(TreatmentKey key, int version, byte[] canonical) {
    String content = new String(canonical, StandardCharsets.UTF_8);
    // PostgreSQL keeps microseconds: what is returned now must equal what is read later.
    Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
    return new StoredTreatment(key, version, now, DigestUtils.sha256Hex(canonical), content);
  }
}
