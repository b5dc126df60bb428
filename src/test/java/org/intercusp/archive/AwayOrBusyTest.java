package org.intercusp.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.zaxxer.hikari.HikariConfig;
import com.zaxxer.hikari.HikariDataSource;
import java.sql.Connection;
import java.sql.SQLException;
import java.sql.SQLTransientConnectionException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.IntStream;
import javax.sql.DataSource;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.springframework.jdbc.datasource.DelegatingDataSource;

/** A database that is away is told at once, one whose connections are in use is waited for. */
class AwayOrBusyTest {

  private static final Duration PATIENCE = Duration.ofSeconds(60);

  private final Switched database = new Switched();
  private final HikariDataSource pool = pool(database);

  @AfterEach
  void close() {
    pool.close();
  }

  @Test
  void oneThatIsAwayIsNotWaitedForByAnybody() throws Exception {
    AwayOrBusy connections = new AwayOrBusy(pool, PATIENCE);
    connections.getConnection().close();
    database.away = true;
    pool.getHikariPoolMXBean().softEvictConnections();
    ExecutorService many = Executors.newFixedThreadPool(20);
    try {
      List<Future<SQLException>> asked =
          IntStream.range(0, 20)
              .mapToObj(
                  i ->
                      many.submit(
                          () -> assertThrows(SQLException.class, connections::getConnection)))
              .toList();
      for (Future<SQLException> one : asked) {
        // Far from the patience, however busy the machine.
        assertThat(DatabaseTrouble.in(one.get(20, TimeUnit.SECONDS)))
            .contains(DatabaseTrouble.UNREACHED);
      }
    } finally {
      many.shutdownNow();
    }
    database.away = false;
    connections.getConnection().close();
  }

  /** The pool gives its reason to one of those who wait. */
  @Test
  void whatOneIsToldHoldsForAllWhoWaitMeanwhile() {
    List<AwayOrBusy> connections = new ArrayList<>();
    AtomicInteger asked = new AtomicInteger();
    DataSource told =
        new DelegatingDataSource(database) {
          @Override
          public Connection getConnection() throws SQLException {
            if (asked.incrementAndGet() == 1) {
              // Another asks while the first one waits, and is the one who is told why.
              assertThrows(SQLException.class, connections.get(0)::getConnection);
              throw new SQLTransientConnectionException("not available");
            }
            throw new SQLTransientConnectionException(
                "not available", new SQLException("Connection refused.", "08001"));
          }
        };
    connections.add(new AwayOrBusy(told, PATIENCE));
    assertThrows(SQLException.class, connections.get(0)::getConnection);
    assertThat(asked).as("nobody asks again").hasValue(2);
  }

  @Test
  void oneInUseIsWaitedFor() throws Exception {
    AwayOrBusy connections = new AwayOrBusy(pool, PATIENCE);
    Connection used = connections.getConnection();
    ExecutorService other = Executors.newSingleThreadExecutor();
    try {
      Future<Connection> waits = other.submit(() -> connections.getConnection());
      // Several times as long as the pool waits.
      Thread.sleep(1_500);
      assertThat(waits).isNotDone();
      used.close();
      waits.get(20, TimeUnit.SECONDS).close();
    } finally {
      other.shutdownNow();
    }
  }

  @Test
  void patienceEnds() throws Exception {
    AwayOrBusy connections = new AwayOrBusy(pool, Duration.ofMillis(800));
    try (Connection used = connections.getConnection()) {
      long begin = System.nanoTime();
      SQLException fault = assertThrows(SQLException.class, connections::getConnection);
      assertThat(fault.getMessage()).contains("not available");
      assertThat(Duration.ofNanos(System.nanoTime() - begin)).isGreaterThan(Duration.ofMillis(800));
      assertThat(used.isClosed()).isFalse();
    }
  }

  private static HikariDataSource pool(Switched database) {
    HikariConfig config = new HikariConfig();
    config.setDataSource(database);
    config.setMaximumPoolSize(1);
    config.setConnectionTimeout(250);
    return new HikariDataSource(config);
  }

  /** A database that can be away. */
  private static final class Switched extends DelegatingDataSource {

    private volatile boolean away;

    Switched() {
      super(Databases.H2.fresh());
    }

    @Override
    public Connection getConnection() throws SQLException {
      if (away) {
        throw new SQLException("Connection refused.", "08001");
      }
      return super.getConnection();
    }
  }
}
