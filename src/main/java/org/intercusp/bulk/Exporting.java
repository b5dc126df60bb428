package org.intercusp.bulk;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import javax.sql.DataSource;
import org.intercusp.access.Clinic;
import org.intercusp.access.TraceContext;
import org.intercusp.access.Visit;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.intercusp.finding.FaultPlace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Works exports off, one after the other, and removes what has expired. Instances that share a
 * database share the work, where they share the directory of the files as well.
 */
public final class Exporting implements AutoCloseable {

  private static final Logger LOG = LoggerFactory.getLogger(Exporting.class);

  /** An export that failed so often is given up; common practice, no source. */
  private static final int ATTEMPTS = 3;

  /** Seconds that a stop waits for what is under way; common practice, no source. */
  private static final long PATIENCE_AT_THE_END = 20;

  private final ExportRows rows;
  private final ExportFolder folder;
  private final ExportWork work;
  private final TransactionTemplate transaction;
  private final AuditTrail trail;
  private final ExportSettings settings;
  private final Clock clock;
  private final ScheduledExecutorService worker;
  private volatile boolean ending;

  /** What was told last and has not ended: else it is said every second while a disk is full. */
  private String trouble = "";

  /**
   * A worker that has not begun.
   *
   * @param files the directory the files stand in
   */
  public Exporting(
      DataSource database,
      ResourceIndex index,
      Lines lines,
      AuditTrail trail,
      Path files,
      ExportSettings settings,
      Clock clock) {
    this.rows = new ExportRows(database);
    this.folder = new ExportFolder(files);
    this.work = new ExportWork(index, rows, folder, lines, settings, clock, () -> ending);
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
    this.trail = trail;
    this.settings = settings;
    this.clock = clock;
    this.worker =
        Executors.newSingleThreadScheduledExecutor(
            task -> {
              Thread thread = new Thread(task, "exports");
              thread.setDaemon(true);
              return thread;
            });
  }

  /** Begins to work. */
  public void start() {
    long millis = settings.polling().toMillis();
    var unused = worker.scheduleWithFixedDelay(this::round, 0, millis, TimeUnit.MILLISECONDS);
  }

  private void round() {
    try {
      tidy();
      while (!ending && next()) {
        tidy();
      }
      trouble = "";
    } catch (IOException | RuntimeException e) {
      told(e);
    }
  }

  private void told(Exception fault) {
    String place = FaultPlace.of(fault);
    if (!place.equals(trouble)) {
      trouble = place;
      LOG.warn("exports: {}", place);
    }
  }

  private void tidy() throws IOException {
    rows.removeExpired(clock.instant());
    folder.keepOnly(rows::attempts);
  }

  /** Works off the next one; false where there is none. */
  private boolean next() {
    Optional<ExportJob> due = rows.due(clock.instant());
    if (due.isEmpty()) {
      return false;
    }
    if (rows.claim(due.get(), clock.instant().plus(settings.lease()))) {
      rows.find(due.get().id()).ifPresent(this::attempt);
    }
    return true;
  }

  private void attempt(ExportJob job) {
    Visit visit = new Visit(job.owner(), "", TraceContext.fresh());
    try {
      trail
          .callers()
          .as(
              visit,
              () -> {
                written(job);
                return job;
              });
    } catch (ExportWork.Ended e) {
      rows.release(job);
    } catch (RuntimeException e) {
      told(e);
      failed(job);
    }
  }

  private void written(ExportJob job) {
    try {
      ExportWork.Result result = work.write(job);
      transaction.executeWithoutResult(status -> done(job, result));
    } catch (IOException e) {
      throw new UncheckedIOException("an export could not be written", e);
    }
  }

  private void done(ExportJob job, ExportWork.Result result) {
    if (!end(job, ExportJob.State.DONE, result.output())) {
      return;
    }
    String detail =
        result.output().stream().mapToLong(ExportJob.Output::count).sum() + " resources";
    // Each clinic learns that what is its own was taken out, however many the owner reaches.
    for (Clinic clinic : result.clinics()) {
      trail.done(Deed.DISCLOSE, Thing.of(Exports.THING, clinic, job.id()), detail);
    }
  }

  private void failed(ExportJob job) {
    if (job.attempt() < ATTEMPTS) {
      rows.release(job);
    } else {
      end(job, ExportJob.State.FAILED, List.of());
    }
  }

  private boolean end(ExportJob job, ExportJob.State state, List<ExportJob.Output> output) {
    Instant expires = clock.instant().plus(settings.kept());
    return rows.end(job, state, output, expires);
  }

  /** Ends; what is under way is given back and worked off after the next start. */
  @Override
  public void close() {
    ending = true;
    worker.shutdown();
    try {
      if (!worker.awaitTermination(PATIENCE_AT_THE_END, TimeUnit.SECONDS)) {
        // No interrupt, which could close an embedded database: the next instance takes over.
        LOG.warn("exports: one did not end in {} s and is worked off again", PATIENCE_AT_THE_END);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
  }
}
