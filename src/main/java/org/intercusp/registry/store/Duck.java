package org.intercusp.registry.store;

import java.nio.file.Path;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Properties;
import org.duckdb.DuckDBAppender;
import org.duckdb.DuckDBConnection;
import org.jspecify.annotations.Nullable;

/** The embedded engine, in memory, that reads and writes the Parquet files. Not for two threads. */
final class Duck implements AutoCloseable {

  /** What the engine may hold; beyond it, it spills into the given folder. */
  private static final String MEMORY = "512MB";

  /** What is read from a row of a result. */
  interface RowReader<T> {
    T read(ResultSet row) throws SQLException;
  }

  private final DuckDBConnection connection;

  Duck(Path spill) throws SQLException {
    this.connection =
        (DuckDBConnection) DriverManager.getConnection("jdbc:duckdb:", new Properties());
    run("SET memory_limit = '" + MEMORY + "'");
    run("SET temp_directory = " + quoted(spill));
    // Nothing is fetched: what is needed is in the jar.
    run("SET autoinstall_known_extensions = false");
  }

  static String quoted(Path path) {
    return "'" + path.toAbsolutePath().toString().replace("'", "''") + "'";
  }

  void run(String sql) throws SQLException {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    }
  }

  <T> List<T> list(String sql, RowReader<T> reader) throws SQLException {
    List<T> all = new ArrayList<>();
    try (Statement statement = connection.createStatement();
        ResultSet rows = statement.executeQuery(sql)) {
      while (rows.next()) {
        all.add(reader.read(rows));
      }
    }
    return all;
  }

  long number(String sql) throws SQLException {
    return list(sql, row -> row.getLong(1)).get(0);
  }

  /** Adds rows of texts, whole numbers and decimals to a table. */
  void append(String table, Iterable<? extends List<? extends @Nullable Object>> rows)
      throws SQLException {
    try (DuckDBAppender appender = connection.createAppender(table)) {
      for (List<? extends @Nullable Object> row : rows) {
        appender.beginRow();
        for (Object value : row) {
          append(appender, value);
        }
        appender.endRow();
      }
    }
  }

  private static void append(DuckDBAppender appender, @Nullable Object value) throws SQLException {
    if (value == null) {
      appender.appendNull();
    } else if (value instanceof String text) {
      appender.append(text);
    } else if (value instanceof Integer whole) {
      appender.append(whole.intValue());
    } else if (value instanceof Long whole) {
      appender.append(whole.longValue());
    } else if (value instanceof Double decimal) {
      appender.append(decimal.doubleValue());
    } else {
      throw new IllegalArgumentException("no column takes " + value.getClass());
    }
  }

  @Override
  public void close() throws SQLException {
    connection.close();
  }
}
