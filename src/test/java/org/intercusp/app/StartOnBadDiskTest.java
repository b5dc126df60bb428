package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.net.ConnectException;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.sql.SQLTransientConnectionException;
import org.intercusp.archive.Databases;
import org.intercusp.archive.ScarceDisk;
import org.intercusp.cli.StartFault;
import org.intercusp.registry.store.StoreFault;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A disk or a file that cannot be used is told with what to do about it. */
class StartOnBadDiskTest {

  @TempDir Path folder;

  @Test
  void aFullDiskIsNamed() {
    ScarceDisk.full(true);
    try {
      assertThat(told(() -> ScarceDisk.database(folder.resolve("kept")).close()))
          .startsWith("Not started: the database in the data directory could not be written")
          .contains("make room");
    } finally {
      ScarceDisk.full(false);
    }
  }

  @Test
  void aDamagedDatabaseIsNamed() throws IOException {
    Files.writeString(folder.resolve("kept.mv.db"), "no database at all ".repeat(1_000));
    assertThat(told(() -> Databases.file(folder.resolve("kept")).close()))
        .startsWith("Not started: the database in the data directory is damaged; bring a backup");
  }

  @Test
  void aFileThatIsNoDatabaseAtAllIsDamagedToo() throws IOException {
    Files.writeString(folder.resolve("kept.mv.db"), "hello");
    assertThat(told(() -> Databases.file(folder.resolve("kept")).close()))
        .startsWith("Not started: the database in the data directory is damaged; bring a backup");
  }

  @Test
  void aFileOfSomebodyElseIsNamed() {
    String file = folder.resolve("intercusp.mv.db").toString();
    SQLException driver =
        new SQLException("General error", "HY000", new AccessDeniedException(file));
    assertThat(told(new IllegalStateException(driver)))
        .isEqualTo(
            "Not started: "
                + file
                + " may not be read or written by the user this runs as; see whose it is");
  }

  @Test
  void aDatabaseThatIsAwayIsNamedByItsDriver() {
    ConnectException refused = new ConnectException("Connection refused");
    SQLException driver = new SQLException("Connection to db:5432 refused.", "08001", refused);
    SQLException pool = new SQLTransientConnectionException("not available", driver);
    assertThat(told(new IllegalStateException(pool)))
        .isEqualTo("Not started: the database cannot be reached: Connection to db:5432 refused.");
  }

  @Test
  void tooLittleMemoryIsNamed() {
    assertThat(told(new IllegalStateException(new OutOfMemoryError("Java heap space"))))
        .startsWith("Not started: the memory is too small");
  }

  @Test
  void theRegistryTellsAFullDiskAndNoRow() {
    IOException engine = new IOException("Could not write file: No space left on device");
    assertThat(new StoreFault("a batch could not be written", engine))
        .hasMessage("a batch could not be written: the disk is full; make room and try again");
    assertThat(new StoreFault("a batch could not be written", new IOException("P-0815")))
        .hasMessage("a batch could not be written");
  }

  private static String told(Runnable start) {
    return told(assertThrows(RuntimeException.class, start::run));
  }

  static String told(RuntimeException fault) {
    try (Overheard said = new Overheard()) {
      assertThat(new StartFault(fault).told()).isEqualTo(3);
      return said.error().strip();
    }
  }
}
