package org.intercusp.archive;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import javax.sql.DataSource;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The embedded database as one ZIP file, taken while the service works. */
public final class DatabaseBackup {

  private final DataSource database;
  private final AuditTrail trail;
  private final Path directory;

  /**
   * Backups of a database.
   *
   * @param directory where the file stands until it is handed over; made where it is missing
   */
  public DatabaseBackup(DataSource database, AuditTrail trail, Path directory) {
    this.database = database;
    this.trail = trail;
    this.directory = directory;
  }

  /** Whether it can be done here: a server's database has means of its own. */
  public boolean isPossible() {
    return EmbeddedDatabase.isFile(database);
  }

  /**
   * Writes it. What is committed before is in it; what happens meanwhile is in it whole or not at
   * all (the statement {@code BACKUP TO}, H2 2.4,
   * https://h2database.com/html/commands.html#backup).
   *
   * @throws org.intercusp.access.OutOfReach unless the caller reaches every clinic, since it holds
   *     all of them
   */
  public void write(OutputStream out) throws IOException {
    trail.callers().mustReachEverywhere();
    trail.done(Deed.DISCLOSE, Thing.list("Database"), "backup");
    Files.createDirectories(directory);
    // Made readable by its owner alone.
    Path place = Files.createTempDirectory(directory, "backup-");
    Path file = place.resolve("backup.zip");
    try {
      JdbcClient.create(database)
          .sql("backup to '" + file.toAbsolutePath().toString().replace("'", "''") + "'")
          .update();
      Files.copy(file, out);
    } finally {
      Files.deleteIfExists(file);
      Files.deleteIfExists(place);
    }
  }
}
