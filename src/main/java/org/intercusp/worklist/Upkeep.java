package org.intercusp.worklist;

import java.time.Clock;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ScheduledThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import javax.sql.DataSource;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.finding.FaultPlace;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.TreatmentReader;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Keeps the index true. A version is entered as it is stored, in the archive's own transaction;
 * treatments of earlier programs, of other limits, and those whose record names no day and were
 * judged on an earlier one, are entered anew beside the work, looked for once a minute.
 */
public final class Upkeep implements Consumer<StoredTreatment>, AutoCloseable {

  private static final Logger LOG = LoggerFactory.getLogger(Upkeep.class);

  /** Common practice, no source. */
  private static final int BATCH = 100;

  /** Between two looks; common practice, no source. */
  private static final long SECONDS = 60;

  private static final Caller WORKER = Caller.worker("worklist-upkeep");

  private final EntryRows rows;
  private final CurrentCaller callers;
  private final Judging judging;
  private final TransactionTemplate transaction;
  private final Clock clock;
  private final AtomicReference<@Nullable LocalDate> done = new AtomicReference<>();
  private final ScheduledThreadPoolExecutor beside;

  /** For a program that one person runs for themselves: they reach everything. */
  public Upkeep(DataSource database, TreatmentReader reader, Limits limits, Clock clock) {
    this(database, CurrentCaller.withoutLogin(), reader, limits, clock);
  }

  /** For callers who reach what is theirs; what is done beside them is done by a worker. */
  public Upkeep(
      DataSource database,
      CurrentCaller callers,
      TreatmentReader reader,
      Limits limits,
      Clock clock) {
    this.rows = new EntryRows(database, callers);
    this.callers = callers;
    this.judging = new Judging(reader, limits);
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
    this.clock = clock;
    this.beside =
        new ScheduledThreadPoolExecutor(
            1,
            task -> {
              Thread thread = new Thread(task, "worklist-upkeep");
              thread.setDaemon(true);
              return thread;
            });
  }

  /** Enters a version that is being stored. */
  @Override
  public void accept(StoredTreatment stored) {
    rows.write(judging.of(stored, today()), judging.edition());
  }

  /** Looks once a minute for what must be entered anew, from now on. */
  public void start(TreatmentArchive archive) {
    // whole keeps what goes wrong to itself.
    var unused = beside.scheduleWithFixedDelay(() -> whole(archive), 0, SECONDS, TimeUnit.SECONDS);
  }

  private void whole(TreatmentArchive archive) {
    Map<TreatmentKey, RuntimeException> failed = new LinkedHashMap<>();
    try {
      int tried;
      do {
        tried = callers.as(WORKER, () -> entered(archive, BATCH, failed));
      } while (tried > 0 && !beside.isShutdown());
    } catch (RuntimeException e) {
      // Tried again in a minute; the list says meanwhile that some are not judged for today.
      LOG.warn("the list of treatments could not be brought up to date: {}", FaultPlace.of(e));
    }
    failed.values().stream()
        .findFirst()
        .ifPresent(
            first ->
                LOG.warn(
                    "{} treatments could not be entered in the list anew, the first for {}",
                    failed.size(),
                    FaultPlace.of(first)));
  }

  /**
   * Enters up to {@code length} treatments anew, each in a transaction of its own; what goes wrong
   * with one is thrown once the others have been entered.
   *
   * @return how many there were to enter
   */
  public int freshen(TreatmentArchive archive, int length) {
    Map<TreatmentKey, RuntimeException> failed = new LinkedHashMap<>();
    int tried = callers.as(WORKER, () -> entered(archive, length, failed));
    for (RuntimeException first : failed.values()) {
      throw first;
    }
    return tried;
  }

  /**
   * Tries as many as are to be entered beside those that failed before.
   *
   * @param failed takes those that fail
   */
  private int entered(
      TreatmentArchive archive, int length, Map<TreatmentKey, RuntimeException> failed) {
    LocalDate today = today();
    List<TreatmentKey> stale = rows.stale(judging.edition(), today, length + failed.size());
    if (stale.isEmpty()) {
      done.set(today);
    }
    List<TreatmentKey> untried = stale.stream().filter(key -> !failed.containsKey(key)).toList();
    for (TreatmentKey key : untried) {
      if (beside.isShutdown()) {
        return 0;
      }
      try {
        transaction.executeWithoutResult(status -> enter(archive, key));
      } catch (RuntimeException e) {
        failed.put(key, e);
      }
    }
    return untried.size();
  }

  private void enter(TreatmentArchive archive, TreatmentKey key) {
    if (rows.hold(key)) {
      archive.current(key).ifPresent(this);
    }
  }

  /** How many treatments in the caller's reach are not judged for today yet. */
  long waiting() {
    LocalDate today = today();
    return today.equals(done.get()) ? 0 : rows.countStale(judging.edition(), today);
  }

  private LocalDate today() {
    return LocalDate.now(clock);
  }

  /** Ends behind the treatment being entered. No interrupt: it would close an embedded database. */
  @Override
  public void close() {
    beside.shutdown();
  }
}
