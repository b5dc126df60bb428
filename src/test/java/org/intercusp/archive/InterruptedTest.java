package org.intercusp.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * A thread that is interrupted while it writes, as workers and the threads of requests are at a
 * stop, does not close the embedded database under all others.
 */
class InterruptedTest {

  private static final int ROWS = 500;

  private static final long PATIENCE_SECONDS = 60;

  @TempDir Path folder;

  @Test
  void theDatabaseGoesOn() throws Exception {
    String url = Databases.url(folder.resolve("kept"));
    try (Connection database = DriverManager.getConnection(url, "sa", "")) {
      update(database, "create table said (number integer primary key, words varchar)");
      CountDownLatch begun = new CountDownLatch(ROWS / 10);
      CompletableFuture<Boolean> end = new CompletableFuture<>();
      Thread worker = new Thread(() -> end.complete(writes(database, begun)));

      worker.start();
      assertThat(begun.await(PATIENCE_SECONDS, TimeUnit.SECONDS)).isTrue();
      while (worker.isAlive()) {
        worker.interrupt();
        worker.join(5);
      }

      assertThat(end.get(PATIENCE_SECONDS, TimeUnit.SECONDS)).as("interrupted to the end").isTrue();
      update(database, "insert into said values (0, '')");
      assertThat(count(database)).isEqualTo(ROWS + 1);
    }
    try (Connection again = DriverManager.getConnection(url, "sa", "")) {
      assertThat(count(again)).isEqualTo(ROWS + 1);
    }
  }

  /** Whether the thread was found interrupted after the last row. */
  private static boolean writes(Connection database, CountDownLatch begun) {
    try {
      for (int number = 1; number <= ROWS; number++) {
        update(database, "insert into said values (" + number + ", '" + "w".repeat(2_000) + "')");
        begun.countDown();
      }
      return Thread.currentThread().isInterrupted();
    } catch (SQLException e) {
      return false;
    }
  }

  private static void update(Connection database, String sql) throws SQLException {
    try (Statement statement = database.createStatement()) {
      statement.execute(sql);
    }
  }

  private static int count(Connection database) throws SQLException {
    try (Statement statement = database.createStatement();
        var found = statement.executeQuery("select count(*) from said")) {
      found.next();
      return found.getInt(1);
    }
  }
}
