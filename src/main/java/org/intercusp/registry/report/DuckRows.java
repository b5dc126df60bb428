package org.intercusp.registry.report;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.HashMap;
import java.util.Map;
import java.util.Objects;
import java.util.Properties;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;

/**
 * The embedded engine: DuckDB in memory over the Parquet files of a directory, within a bound of
 * memory and without reach outside those files.
 */
public final class DuckRows implements RowSource, AutoCloseable {

  private static final String FILES = "part-*.parquet";

  private final Connection connection;

  private DuckRows(Connection connection) {
    this.connection = connection;
  }

  /**
   * Opens the rows of a registry.
   *
   * @param cases directory of the Parquet files
   * @param memoryMegabytes most the engine may hold before it goes to disk
   * @throws NoSuchRows when there is none
   */
  public static DuckRows over(Path cases, int memoryMegabytes) throws NoSuchRows {
    if (!holdsRows(cases)) {
      throw new NoSuchRows();
    }
    try {
      DuckRows rows =
          new DuckRows(DriverManager.getConnection("jdbc:duckdb:", settings(memoryMegabytes)));
      // Each query would read the files' footers anew; they are kept as long as the connection.
      rows.run("SET parquet_metadata_cache = true");
      rows.view(
          "cases",
          "SELECT * FROM read_parquet("
              + quoted(cases.resolve(FILES).toString())
              + ", union_by_name = true)");
      rows.run("CREATE TEMP MACRO brief(text) AS hash(text)");
      return rows;
    } catch (SQLException fault) {
      throw new IllegalStateException("the engine does not open the registry's rows", fault);
    }
  }

  private static Properties settings(int memoryMegabytes) {
    Properties settings = new Properties();
    settings.setProperty("memory_limit", memoryMegabytes + "MB");
    settings.setProperty(
        "temp_directory",
        System.getProperty("java.io.tmpdir")
            + "/intercusp-duckdb-"
            + ProcessHandle.current().pid());
    settings.setProperty("autoinstall_known_extensions", "false");
    settings.setProperty("autoload_known_extensions", "false");
    settings.setProperty("preserve_insertion_order", "false");
    return settings;
  }

  private static boolean holdsRows(Path cases) {
    if (!Files.isDirectory(cases)) {
      return false;
    }
    try (Stream<Path> files = Files.list(cases)) {
      return files
          .map(file -> file.getFileName().toString())
          .anyMatch(name -> name.startsWith("part-") && name.endsWith(".parquet"));
    } catch (IOException fault) {
      throw new UncheckedIOException(fault);
    }
  }

  private static String quoted(String text) {
    return "'" + text.replace("'", "''") + "'";
  }

  @Override
  public void view(String name, String sql) {
    run("CREATE OR REPLACE TEMP VIEW " + name + " AS " + sql);
  }

  @Override
  public void keep(String name, String sql) {
    run("CREATE OR REPLACE TEMP TABLE " + name + " AS " + sql);
  }

  @Override
  public void forget(String name) {
    run("DROP TABLE " + name);
  }

  private void run(String sql) {
    try (Statement statement = connection.createStatement()) {
      statement.execute(sql);
    } catch (SQLException fault) {
      throw new IllegalStateException("the engine does not run the report's query", fault);
    }
  }

  @Override
  public void each(String sql, Consumer<Row> use) {
    try (Statement statement = connection.createStatement();
        ResultSet found = statement.executeQuery(sql)) {
      Row row = new Found(found);
      while (found.next()) {
        use.accept(row);
      }
    } catch (SQLException fault) {
      throw new IllegalStateException("the engine does not run the report's query", fault);
    }
  }

  @Override
  public void close() {
    try {
      connection.close();
    } catch (SQLException fault) {
      throw new IllegalStateException("the engine does not close", fault);
    }
  }

  /** There are no outcome rows at the place named. */
  public static final class NoSuchRows extends Exception {
    private static final long serialVersionUID = 1;

    NoSuchRows() {
      super("the registry holds no outcomes yet");
    }
  }

  private static final class Found implements Row {

    private final ResultSet found;
    private final Map<String, Integer> places = new HashMap<>();

    Found(ResultSet found) throws SQLException {
      this.found = found;
      for (int i = 1; i <= found.getMetaData().getColumnCount(); i++) {
        places.put(found.getMetaData().getColumnName(i), i);
      }
    }

    private int place(String column) {
      return Objects.requireNonNull(places.get(column), column);
    }

    @Override
    public boolean has(String column) {
      return read(() -> found.getObject(place(column))) != null;
    }

    @Override
    public @Nullable String text(String column) {
      return read(() -> found.getString(place(column)));
    }

    @Override
    public long whole(String column) {
      return read(() -> found.getLong(place(column)));
    }

    @Override
    public double number(String column) {
      // The driver gives no number for null.
      double value = read(() -> found.getDouble(place(column)));
      return Double.isNaN(value) ? 0 : value;
    }

    private static <T extends @Nullable Object> T read(Reading<T> reading) {
      try {
        return reading.now();
      } catch (SQLException fault) {
        throw new IllegalStateException("the engine's row can't be read", fault);
      }
    }
  }

  private interface Reading<T extends @Nullable Object> {
    T now() throws SQLException;
  }
}
