package org.intercusp.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import com.zaxxer.hikari.HikariDataSource;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Nothing is taken into a file that is no longer where the next start looks for it. */
@DisabledOnOs(value = OS.WINDOWS, disabledReason = "an open file cannot be taken away there")
class FileStillThereTest {

  @TempDir Path folder;
  private final HikariDataSource pool = new HikariDataSource();
  private FileStillThere connections;
  private Path file;

  @BeforeEach
  void open() {
    pool.setJdbcUrl("jdbc:h2:async:" + folder.resolve("intercusp") + ";WRITE_DELAY=0");
    connections = new FileStillThere(pool);
    JdbcClient.create(connections).sql("create table one (a int)").update();
    file = folder.resolve("intercusp.mv.db");
  }

  @AfterEach
  void close() {
    pool.close();
  }

  @Test
  void aFileThatWasDeletedTakesNothing() throws IOException {
    Files.delete(file);
    assertRefused();
    Files.createFile(file);
    assertRefused();
  }

  @Test
  void oneThatWasMovedAwayTakesAgainWhenItIsBack() throws IOException {
    Path elsewhere = folder.resolve("elsewhere");
    Files.move(file, elsewhere);
    assertRefused();
    Files.copy(elsewhere, file);
    assertRefused();
    Files.delete(file);
    Files.move(elsewhere, file);
    assertThat(JdbcClient.create(connections).sql("insert into one values (1)").update())
        .isEqualTo(1);
  }

  @Test
  void aDirectoryThatWasMovedAwayTakesNothing() throws IOException {
    Path elsewhere = folder.resolveSibling(folder.getFileName() + "-moved");
    Files.move(folder, elsewhere);
    assertRefused();
    Files.move(elsewhere, folder);
    assertThat(JdbcClient.create(connections).sql("insert into one values (1)").update())
        .isEqualTo(1);
  }

  @Test
  void inMemoryThereIsNoFileToLookFor() throws SQLException {
    try (HikariDataSource memory = new HikariDataSource()) {
      memory.setJdbcUrl("jdbc:h2:mem:still-there");
      FileStillThere there = new FileStillThere(memory);
      there.getConnection().close();
      there.getConnection().close();
    }
  }

  private void assertRefused() {
    SQLException fault = assertThrows(SQLException.class, connections::getConnection);
    assertThat(DatabaseTrouble.in(fault)).contains(DatabaseTrouble.UNREACHED);
  }
}
