package org.intercusp.archive;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.SQLNonTransientConnectionException;
import java.sql.Statement;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.datasource.DelegatingDataSource;

/**
 * Gives no connection while the file of an embedded database is not the one that was opened. Who
 * deletes, moves or replaces it under a running service takes it from the directory, not from the
 * process, which would go on writing into what is gone with its end: every record taken from then
 * on would be acknowledged and lost. Where there is no file, or the file system does not tell files
 * apart, whatever is there counts.
 */
public final class FileStillThere extends DelegatingDataSource {

  private static final Logger LOG = LoggerFactory.getLogger(FileStillThere.class);

  private final AtomicBoolean told = new AtomicBoolean();
  private volatile @Nullable Opened opened;

  /** A file as it was when it was opened. */
  private record Opened(Optional<Path> file, @Nullable Object key) {

    boolean isThere() {
      return file.isEmpty() || (Files.exists(file.get()) && sameOrUnknown(keyOf(file.get())));
    }

    private boolean sameOrUnknown(@Nullable Object now) {
      return key == null || key.equals(now);
    }
  }

  public FileStillThere(DataSource database) {
    super(database);
  }

  @Override
  public Connection getConnection() throws SQLException {
    Opened known = opened;
    if (known == null) {
      return first();
    }
    if (!known.isThere()) {
      if (!told.getAndSet(true)) {
        LOG.error(
            "The database file is gone from its place, or another was put there: nothing is taken"
                + " until it is back. What this process wrote last is in the file it opened");
      }
      throw new SQLNonTransientConnectionException("the file of the database is gone", "08006");
    }
    if (told.getAndSet(false)) {
      LOG.warn("The database file is back");
    }
    return super.getConnection();
  }

  private Connection first() throws SQLException {
    Connection connection = super.getConnection();
    try {
      Optional<Path> file = file(connection);
      opened = new Opened(file, file.map(FileStillThere::keyOf).orElse(null));
      return connection;
    } catch (SQLException e) {
      connection.close();
      throw e;
    }
  }

  private static Optional<Path> file(Connection connection) throws SQLException {
    if (!EmbeddedDatabase.isFile(connection.getMetaData().getURL())) {
      return Optional.empty();
    }
    try (Statement statement = connection.createStatement();
        ResultSet row = statement.executeQuery("call database_path()")) {
      row.next();
      // A kind of file system may stand before it; one letter is a drive.
      String path = row.getString(1).replaceFirst("^[a-zA-Z]{2,}:", "");
      return Optional.of(Path.of(path + ".mv.db")).filter(Files::exists);
    }
  }

  private static @Nullable Object keyOf(Path file) {
    try {
      return Files.readAttributes(file, BasicFileAttributes.class).fileKey();
    } catch (IOException e) {
      return null;
    }
  }
}
