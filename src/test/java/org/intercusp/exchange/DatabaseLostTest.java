package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import com.zaxxer.hikari.HikariDataSource;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.intercusp.archive.Databases;
import org.intercusp.archive.ScarceDisk;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.queue.DeliveryState;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;

/** The database goes away under the work and comes back: what was taken is there, and sent once. */
class DatabaseLostTest extends DeliveryRig {

  private static final int TREATMENTS = 12;
  private static final List<String> LOUD =
      List.of("com.github.kagkarlsson", "com.zaxxer.hikari", "org.springframework.transaction");

  private final Map<TreatmentKey, String> taken = new LinkedHashMap<>();
  private int refused;

  @BeforeEach
  void quiet() {
    // Thousands of lines otherwise, all of them what the test makes happen.
    LOUD.forEach(name -> logger(name).setLevel(Level.OFF));
  }

  @AfterEach
  void room() {
    ScarceDisk.full(false);
    LOUD.forEach(name -> logger(name).setLevel(null));
  }

  private static Logger logger(String name) {
    return (Logger) LoggerFactory.getLogger(name);
  }

  @Test
  void everyConnectionIsCutTimeAndAgain() throws Exception {
    FakeRecords records = new FakeRecords(hospital);
    HikariDataSource database = (HikariDataSource) Databases.POSTGRESQL.fresh();
    Rig rig = new Rig(database);
    rig.start();
    int cut = 0;
    // Work in flight holds one connection or several: on until enough of it was hit.
    for (int i = 0; i < TREATMENTS || (cut <= TREATMENTS && i < 10 * TREATMENTS); i++) {
      take(rig);
      cut += i % 2 == 0 ? cutAll(database) : 0;
      rig.pause(60);
    }

    assertThat(cut).as("connections cut").isGreaterThan(TREATMENTS);
    assertDeliveredOnce(rig, records);
  }

  @Test
  void theDiskIsFullForAWhile(@TempDir Path folder) {
    FakeRecords records = new FakeRecords(hospital);
    try (HikariDataSource database = ScarceDisk.database(folder.resolve("kept"))) {
      database.setConnectionTimeout(2_000);
      Rig rig = new Rig(database);
      rig.start();
      for (int i = 0; i < TREATMENTS / 2; i++) {
        take(rig);
      }
      rig.eventually(() -> records.stored() > 0);
      ScarceDisk.full(true);
      for (int i = 0; i < 3; i++) {
        take(rig);
      }
      assertThat(refused).as("refused, and said so").isEqualTo(3);
      assertThat(ScarceDisk.refused()).isPositive();
      ScarceDisk.full(false);
      TreatmentKey first = taken.keySet().iterator().next();
      rig.eventually(() -> stored(rig, first));
      for (int i = 0; i < TREATMENTS / 2; i++) {
        take(rig);
      }

      assertThat(taken).hasSizeGreaterThanOrEqualTo(TREATMENTS);
      assertDeliveredOnce(rig, records);
    }
  }

  /** As a door would: a treatment that is stored and queued was taken, anything else was not. */
  private void take(Rig rig) {
    try {
      TreatmentKey key = rig.store(Parcels.unheardOf());
      taken.put(key, "");
      taken.put(key, rig.queued(key, 1, "hospital"));
    } catch (RuntimeException e) {
      refused++;
    }
  }

  private void assertDeliveredOnce(Rig rig, FakeRecords records) {
    for (Map.Entry<TreatmentKey, String> one : taken.entrySet()) {
      rig.eventually(() -> stored(rig, one.getKey()));
      String id =
          one.getValue().isEmpty() ? rig.queued(one.getKey(), 1, "hospital") : one.getValue();
      rig.await(id, DeliveryState.DELIVERED);
    }
    assertThat(records.duplicates()).isZero();
    assertThat(records.mostVersions()).isEqualTo(1);
    assertThat(records.count("Patient")).isEqualTo(taken.size());
  }

  private static boolean stored(Rig rig, TreatmentKey key) {
    try {
      return rig.archive.current(key).isPresent();
    } catch (RuntimeException e) {
      return false;
    }
  }

  /** Ends every connection to the database but the one that says so; how many. */
  private static int cutAll(HikariDataSource database) throws SQLException {
    try (Connection connection =
            DriverManager.getConnection(database.getJdbcUrl(), "postgres", "");
        Statement statement = connection.createStatement();
        var ended =
            statement.executeQuery(
                "select count(pg_terminate_backend(pid)) from pg_stat_activity"
                    + " where datname = current_database() and pid <> pg_backend_pid()")) {
      ended.next();
      return ended.getInt(1);
    }
  }
}
