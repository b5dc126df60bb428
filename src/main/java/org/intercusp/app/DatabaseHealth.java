package org.intercusp.app;

import java.sql.Connection;
import java.sql.SQLException;
import java.time.Duration;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.boot.health.contributor.Health;
import org.springframework.boot.health.contributor.HealthIndicator;
import org.springframework.stereotype.Component;

/**
 * Whether the database answers, within a bound: who asks for a connection may wait half a minute,
 * and a network that swallows packets longer. All who ask meanwhile wait for one question, so that
 * they do not use up the pool. Takes the place of the framework's own, which has no bound and
 * writes a trace at every asking.
 */
@Component("dbHealthIndicator")
final class DatabaseHealth implements HealthIndicator, AutoCloseable {

  private static final Logger LOG = LoggerFactory.getLogger(DatabaseHealth.class);

  /** Common practice, no source. */
  private static final Duration PATIENCE = Duration.ofSeconds(5);

  private final DataSource database;
  private final Duration patience;
  private final ExecutorService asking = Executors.newSingleThreadExecutor(DatabaseHealth::daemon);
  private @Nullable Future<Boolean> underWay;
  private boolean answered = true;

  @Autowired
  DatabaseHealth(DataSource database) {
    this(database, PATIENCE);
  }

  DatabaseHealth(DataSource database, Duration patience) {
    this.database = database;
    this.patience = patience;
  }

  @Override
  public Health health() {
    boolean answers = answersIn(question());
    tell(answers);
    return (answers ? Health.up() : Health.down()).build();
  }

  private synchronized Future<Boolean> question() {
    if (underWay == null || underWay.isDone()) {
      underWay = asking.submit(this::ask);
    }
    return underWay;
  }

  private boolean ask() {
    try (Connection connection = database.getConnection()) {
      return connection.isValid((int) PATIENCE.toSeconds());
    } catch (SQLException e) {
      return false;
    }
  }

  private boolean answersIn(Future<Boolean> question) {
    try {
      return question.get(patience.toMillis(), TimeUnit.MILLISECONDS);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return false;
    } catch (ExecutionException | TimeoutException e) {
      return false;
    }
  }

  /** When it changes, not at every asking. */
  private synchronized void tell(boolean answers) {
    if (answers != answered) {
      LOG.warn(answers ? "The database answers again" : "The database does not answer; not ready");
      answered = answers;
    }
  }

  private static Thread daemon(Runnable work) {
    Thread thread = new Thread(work, "database-health");
    thread.setDaemon(true);
    return thread;
  }

  /** No interrupt: it would close an embedded database. */
  @Override
  public void close() {
    asking.shutdown();
  }
}
