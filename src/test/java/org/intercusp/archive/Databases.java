package org.intercusp.archive;

import com.zaxxer.hikari.HikariDataSource;
import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.flywaydb.core.Flyway;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.config.YamlPropertiesFactoryBean;
import org.springframework.core.io.ClassPathResource;

/** The databases the service runs on, each migrated and empty. */
public enum Databases {
  H2,
  POSTGRESQL;

  /** The shortest a pool takes; it looks every 30 s. */
  private static final long IDLE_MILLIS = 10_000;

  private static @Nullable EmbeddedPostgres postgres;
  private static @Nullable String template;

  /** Both, for a method source. */
  public static Stream<Databases> all() {
    return Stream.of(values());
  }

  /** A database of its own. */
  public DataSource fresh() {
    return switch (this) {
      case H2 -> migratedTo("latest");
      // Copying one that is migrated takes a third of the time.
      case POSTGRESQL -> pool(created(unused(), " template " + template()), "postgres");
    };
  }

  /** A database of its own as an earlier program left it: migrated up to this version. */
  public DataSource migratedTo(String version) {
    return switch (this) {
      // Who waits for a row waits as long as in the service: else a slow machine ends it early.
      case H2 ->
          migrated(
              "jdbc:h2:mem:" + unused() + ";DB_CLOSE_DELAY=-1;LOCK_TIMEOUT=30000", "sa", version);
      case POSTGRESQL -> migrated(created(unused(), ""), "postgres", version);
    };
  }

  private static String unused() {
    return "d" + UUID.randomUUID().toString().replace("-", "");
  }

  /** The versions there are migrations to, the first one first. */
  public static List<String> versions() {
    DataSource database = H2.migratedTo("1");
    return Stream.of(Flyway.configure().dataSource(database).load().info().all())
        .map(one -> one.getVersion().getVersion())
        .toList();
  }

  /** Brings a database to the newest version. */
  public static void migrate(DataSource database) {
    Flyway.configure().dataSource(database).load().migrate();
  }

  /** An H2 database in a file, which another process may open after this one. */
  public static HikariDataSource file(Path file) {
    return migrated(url(file), "sa", "latest");
  }

  /** The URL of the service's own settings, for another file. */
  static String url(Path file) {
    YamlPropertiesFactoryBean settings = new YamlPropertiesFactoryBean();
    settings.setResources(new ClassPathResource("application.yaml"));
    return Objects.requireNonNull(settings.getObject())
        .getProperty("spring.datasource.url")
        .replace("${intercusp.data}/intercusp", file.toAbsolutePath().toString());
  }

  /** A database that another process made, of whichever kind. */
  public static HikariDataSource opened(String url) {
    boolean h2 = url.startsWith("jdbc:h2:");
    return migrated(url, h2 ? "sa" : "postgres", "latest");
  }

  /** The URL of a new database. */
  private static String created(String name, String how) {
    EmbeddedPostgres server = server();
    try (var connection = server.getPostgresDatabase().getConnection();
        var statement = connection.createStatement()) {
      statement.execute("create database " + name + how);
    } catch (java.sql.SQLException e) {
      throw new IllegalStateException(e);
    }
    return server.getJdbcUrl("postgres", name);
  }

  /** A migrated database that nobody is connected to. */
  private static synchronized String template() {
    if (template == null) {
      String name = unused();
      migrated(created(name, ""), "postgres", "latest").close();
      template = name;
    }
    return template;
  }

  private static synchronized EmbeddedPostgres server() {
    if (postgres == null) {
      try {
        // Each test has a database of its own, whose pool may outlive it; pools let go of what they
        // do not need.
        postgres = EmbeddedPostgres.builder().setServerConfig("max_connections", "500").start();
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return postgres;
  }

  private static HikariDataSource migrated(String url, String user, String version) {
    HikariDataSource database = pool(url, user);
    Flyway.configure().dataSource(database).target(version).load().migrate();
    return database;
  }

  private static HikariDataSource pool(String url, String user) {
    HikariDataSource database = new HikariDataSource();
    database.setJdbcUrl(url);
    database.setUsername(user);
    database.setPassword("");
    database.setExceptionOverrideClassName(ClosedDatabase.class.getName());
    // A pool that nobody uses any more holds no connection: a machine has hundreds of such pools.
    database.setMinimumIdle(0);
    database.setIdleTimeout(IDLE_MILLIS);
    return database;
  }
}
