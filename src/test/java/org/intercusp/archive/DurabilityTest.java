package org.intercusp.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.Statement;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the embedded database has said yes to is there after its process was killed. */
class DurabilityTest {

  private static final int KILLED_AFTER = 40;

  @TempDir Path folder;

  /** Commits a row at a time and says so. */
  static final class Committing {
    private Committing() {}

    public static void main(String[] args) throws Exception {
      try (Connection database = DriverManager.getConnection(args[0], "sa", "");
          Statement statement = database.createStatement()) {
        statement.execute("create table said (number integer primary key)");
        for (int number = 1; ; number++) {
          statement.execute("insert into said values (" + number + ")");
          System.out.println(number);
          System.out.flush();
        }
      }
    }
  }

  @Test
  void everyCommitSurvivesAKill() throws Exception {
    String url = Databases.url(folder.resolve("kept"));
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-cp",
                System.getProperty("java.class.path"),
                Committing.class.getName(),
                url)
            .redirectErrorStream(true)
            .start();
    int said = 0;
    try (BufferedReader out =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      while (said < KILLED_AFTER) {
        said = Integer.parseInt(out.readLine());
      }
      // By its handle: what it said before it was killed can still be read.
      process.toHandle().destroyForcibly();
      for (String line = out.readLine(); line != null; line = out.readLine()) {
        said = line.isEmpty() ? said : Integer.parseInt(line);
      }
    }

    try (Connection database = DriverManager.getConnection(url, "sa", "");
        Statement statement = database.createStatement();
        var found = statement.executeQuery("select count(*) from said")) {
      found.next();
      assertThat(found.getInt(1)).isBetween(said, said + 1);
    }
  }
}
