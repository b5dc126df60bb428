package org.intercusp.bulk;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import javax.sql.DataSource;
import org.intercusp.access.Caller;
import org.intercusp.access.Clinic;
import org.intercusp.archive.Standstill;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Exports as their owners see them: who asked sees it, as long as they reach the clinics they
 * reached then; for everybody else it is not there.
 */
public final class Exports {

  /** What the audit trail calls one. */
  static final String THING = Thing.EXPORT;

  private final ExportRows rows;
  private final ExportFolder folder;
  private final Standstill standstill;
  private final TransactionTemplate transaction;
  private final AuditTrail trail;
  private final ExportSettings settings;
  private final Clock clock;

  /**
   * Exports.
   *
   * @param files the directory their files stand in
   */
  public Exports(
      DataSource database, AuditTrail trail, Path files, ExportSettings settings, Clock clock) {
    this.rows = new ExportRows(database);
    this.folder = new ExportFolder(files);
    this.standstill = new Standstill(database);
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
    this.trail = trail;
    this.settings = settings;
    this.clock = clock;
  }

  /** Asks for one; its id, or nothing where the caller has as many as they may. */
  public synchronized Optional<String> begin(Wanted wanted) {
    Caller caller = trail.callers().caller();
    return transaction.execute(
        status -> {
          List<ExportJob> theirs = rows.of(caller);
          long underWay = theirs.stream().filter(ExportJob::isUnderWay).count();
          if (underWay >= settings.atOnce() || theirs.size() >= settings.keptEach()) {
            return Optional.<String>empty();
          }
          Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
          Standstill.Moment moment = standstill.take(alias -> caller.reach().condition(alias), now);
          ExportJob job = fresh(caller, wanted, moment);
          rows.add(job, now);
          trail.done(Deed.QUEUE, new Thing(THING, null, job.id(), null, null));
          return Optional.of(job.id());
        });
  }

  private static ExportJob fresh(Caller caller, Wanted wanted, Standstill.Moment moment) {
    return new ExportJob(
        UUID.randomUUID().toString(),
        caller,
        wanted,
        moment.sequence(),
        moment.time(),
        ExportJob.State.WAITING,
        0,
        0,
        0,
        null,
        List.of());
  }

  /** One of the caller's own that has not expired. */
  public Optional<ExportJob> find(String id) {
    Caller caller = trail.callers().caller();
    Instant now = clock.instant();
    return rows.find(id)
        .filter(job -> job.owner().subject().equals(caller.subject()))
        .filter(job -> job.owner().kind() == caller.kind())
        .filter(job -> ReachText.of(job.owner().reach()).equals(ReachText.of(caller.reach())))
        .filter(job -> job.expiresAt() == null || job.expiresAt().isAfter(now));
  }

  /** Ends one that is under way, or removes what one made; false where there is none. */
  public boolean cancel(String id) {
    Optional<ExportJob> found = find(id);
    if (found.isEmpty()) {
      return false;
    }
    transaction.executeWithoutResult(
        status -> {
          rows.remove(id);
          trail.done(Deed.DELETE, new Thing(THING, null, id, null, null));
        });
    try {
      folder.remove(found.get());
    } catch (IOException e) {
      // The row is gone, so nobody gets at the files; the next tidying removes them.
      throw new UncheckedIOException("files of an export could not be removed", e);
    }
    return true;
  }

  /**
   * Removes every export that may hold something of a clinic, whose records were erased in part.
   */
  public void forget(Clinic clinic) {
    for (ExportJob job : rows.reaching(clinic)) {
      rows.remove(job.id());
      try {
        folder.remove(job);
      } catch (IOException e) {
        throw new UncheckedIOException("files of an export could not be removed", e);
      }
    }
  }

  /** A file of one that is done, which is thereby handed to the caller. */
  public Optional<Path> file(String id, String name) {
    Optional<ExportJob> found = find(id);
    Optional<Path> file =
        found
            .filter(job -> job.state() == ExportJob.State.DONE)
            .flatMap(
                job ->
                    job.output().stream()
                        .filter(output -> output.file().equals(name))
                        .map(output -> folder.file(job, output))
                        .filter(Files::isRegularFile)
                        .findFirst());
    if (file.isPresent()) {
      Thing thing = new Thing(THING, null, id, null, null);
      trail.done(Deed.DISCLOSE, thing, "file " + name);
    }
    return file;
  }
}
