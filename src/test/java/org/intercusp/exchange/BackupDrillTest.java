package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.zaxxer.hikari.HikariDataSource;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.BackupFile;
import org.intercusp.archive.DatabaseBackup;
import org.intercusp.archive.Databases;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.queue.DeliveryState;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The drill: saved while it works, lost, brought back elsewhere, gone on with. */
class BackupDrillTest extends DeliveryRig {

  @TempDir Path temporary;

  @Test
  void whatWasInFlightIsDeliveredOnceByTheRestoredService() throws IOException {
    FakeRecords records = new FakeRecords(hospital);
    AtomicBoolean up = new AtomicBoolean();
    referrer.always(one -> !up.get(), (one, real) -> Said.nothing());
    FakeRecords others = new FakeRecords(referrer);
    HikariDataSource lost = Databases.file(temporary.resolve("one/intercusp"));
    Rig working = new Rig(lost);
    List<String> ids = new ArrayList<>();
    for (int i = 0; i < 6; i++) {
      ids.add(working.queued(working.store(Parcels.unheardOf()), 1, "hospital"));
      ids.add(working.queued(working.store(Parcels.unheardOf()), 1, "referrer"));
    }
    working.start();
    working.eventually(() -> working.deliveries.count(DeliveryState.DELIVERED) >= 2);

    Path saved = temporary.resolve("saved.zip");
    BackupFile.keep(new ByteArrayInputStream(backup(lost)), saved);
    long inFlight = inFlight(saved);
    // It works on after the backup, and what it delivers then the backup knows nothing of.
    up.set(true);
    working.eventually(() -> working.deliveries.count(DeliveryState.DELIVERED) >= 8);
    end(lost);
    BackupFile.restore(saved, temporary.resolve("two"));

    HikariDataSource back = Databases.file(temporary.resolve("two/intercusp"));
    Rig restored = new Rig(back);
    restored.start();
    ids.forEach(id -> restored.await(id, DeliveryState.DELIVERED));
    end(back);

    assertThat(inFlight).as("in flight when it was saved").isGreaterThanOrEqualTo(6);
    for (FakeRecords one : List.of(records, others)) {
      assertThat(one.duplicates()).isZero();
      assertThat(one.mostVersions()).isEqualTo(1);
      assertThat(one.stored()).isGreaterThan(6 * 40);
    }
  }

  @Test
  void aBackupIsItsOwnersAndGoesNowhereElse() throws IOException {
    Path saved = temporary.resolve("saved.zip");
    try (HikariDataSource database = Databases.file(temporary.resolve("data/intercusp"))) {
      BackupFile.keep(new ByteArrayInputStream(backup(database)), saved);
      try (var left = Files.list(temporary.resolve("data"))) {
        assertThat(left.map(one -> one.getFileName().toString()))
            .allMatch(one -> one.startsWith("intercusp."));
      }
    }

    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(saved)))
        .isEqualTo("rw-------");
    assertThatThrownBy(() -> BackupFile.restore(saved, temporary.resolve("data")))
        .hasMessageContaining("already");
    byte[] whole = Files.readAllBytes(saved);
    Path cut = Files.write(temporary.resolve("cut.zip"), java.util.Arrays.copyOf(whole, 3_000));
    assertThatThrownBy(() -> BackupFile.restore(cut, temporary.resolve("cut")))
        .isInstanceOf(IOException.class);
    try (var left = Files.list(temporary.resolve("cut"))) {
      assertThat(left).isEmpty();
    }
    assertThatThrownBy(
            () ->
                BackupFile.keep(
                    new ByteArrayInputStream(new byte[] {1, 2}), temporary.resolve("x.zip")))
        .isInstanceOf(IOException.class);
    assertThat(temporary.resolve("x.zip")).doesNotExist();
  }

  @Test
  void aServersDatabaseIsNotOursToSave() {
    assertThat(new DatabaseBackup(Databases.H2.fresh(), null, temporary).isPossible()).isFalse();
  }

  private byte[] backup(HikariDataSource database) throws IOException {
    AuditTrail trail = new AuditTrail(database, CurrentCaller.withoutLogin(), Clock.systemUTC());
    ByteArrayOutputStream out = new ByteArrayOutputStream();
    DatabaseBackup backup =
        new DatabaseBackup(database, trail, Path.of(pathOf(database)).getParent());
    assertThat(backup.isPossible()).isTrue();
    backup.write(out);
    assertThat(
            JdbcClient.create(database)
                .sql("select count(*) from audit_event where detail = 'backup'")
                .query(Long.class)
                .single())
        .isEqualTo(1);
    return out.toByteArray();
  }

  private static String pathOf(HikariDataSource database) {
    return database.getJdbcUrl().substring("jdbc:h2:async:".length()).split(";", 2)[0];
  }

  /** How many of its deliveries had not come to their end, as a copy of its own shows. */
  private long inFlight(Path saved) throws IOException {
    Path copy = temporary.resolve("copy");
    BackupFile.restore(saved, copy);
    try (HikariDataSource database = Databases.file(copy.resolve("intercusp"))) {
      return JdbcClient.create(database)
          .sql("select count(*) from delivery where state in ('queued', 'under-way', 'waiting')")
          .query(Long.class)
          .single();
    }
  }

  private void end(HikariDataSource database) {
    for (AutoCloseable one : open) {
      try {
        one.close();
      } catch (Exception e) {
        throw new IllegalStateException(e);
      }
    }
    open.clear();
    database.close();
  }
}
