package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Timestamp;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.queue.DeliveryRows;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Lanes;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.jdbc.core.JdbcTemplate;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Databases as every earlier program left them, with work in flight, brought to the newest version:
 * the work goes on, once. A migration that is added is tested without a line here.
 */
class MigrationsTest extends DeliveryRig {

  /** In the order of their foreign keys. */
  private static final List<String> TABLES =
      List.of(
          "treatment",
          "treatment_version",
          "delivery",
          "delivery_attempt",
          "delivery_lane",
          "delivered_resource",
          "delivered_patient",
          "scheduled_tasks",
          "audit_event");

  private final List<TreatmentKey> keys = new ArrayList<>();
  private String queued = "";
  private String crashed = "";
  private String waiting = "";
  private String held = "";

  static Stream<Arguments> earlier() {
    List<String> versions = Databases.versions();
    return Databases.all()
        .flatMap(
            kind ->
                versions.subList(0, versions.size() - 1).stream()
                    .map(version -> Arguments.of(kind, version)));
  }

  @ParameterizedTest
  @MethodSource("earlier")
  void whatWasInFlightGoesOnAfterTheMigration(Databases kind, String version) {
    FakeRecords records = new FakeRecords(hospital);
    DataSource newest = kind.fresh();
    fill(new Rig(newest));
    DataSource database = kind.migratedTo(version);
    Set<String> copied = copy(newest, database);

    Databases.migrate(database);

    Rig rig = new Rig(database);
    assertThat(copied).contains("treatment", "treatment_version");
    for (TreatmentKey key : keys) {
      assertThat(rig.archive.current(key).orElseThrow().content())
          .isEqualTo(new Rig(newest).archive.current(key).orElseThrow().content());
    }
    if (!copied.contains("delivery")) {
      queued = rig.queued(keys.get(0), 1, "hospital");
      crashed = rig.queued(keys.get(1), 1, "hospital");
      waiting = rig.queued(keys.get(2), 1, "hospital");
    }
    rig.start();
    rig.await(queued, DeliveryState.DELIVERED);
    int tries = copied.contains("delivery") ? 2 : 1;
    // More where deliveries made way for one another, which they are free to do.
    assertThat(rig.await(crashed, DeliveryState.DELIVERED).attempts())
        .isGreaterThanOrEqualTo(tries);
    rig.await(waiting, DeliveryState.DELIVERED);
    if (copied.contains("delivery")) {
      assertThat(rig.deliveries.find(held).orElseThrow().reason()).isEqualTo("somebody must look");
      assertThat(rig.deliveries.find(held).orElseThrow().state()).isEqualTo(DeliveryState.HELD);
    }
    assertThat(records.duplicates()).isZero();
    assertThat(records.mostVersions()).isEqualTo(1);
    rig.eventually(() -> rig.count("scheduled_tasks") == 0);
  }

  /** One queued, one whose worker died, one to be tried again, one that a person must look at. */
  private void fill(Rig rig) {
    for (int i = 0; i < 4; i++) {
      keys.add(rig.store(Parcels.unheardOf()));
    }
    queued = rig.queued(keys.get(0), 1, "hospital");
    crashed = rig.queued(keys.get(1), 1, "hospital");
    waiting = rig.queued(keys.get(2), 1, "hospital");
    held = rig.queued(keys.get(3), 1, "hospital");
    DeliveryRows rows = new DeliveryRows(rig.database, CurrentCaller.withoutLogin());
    Lanes lanes = new Lanes(rig.database);
    String patient = rows.patient(crashed);
    lanes.open("hospital", patient);
    long fence = lanes.take("hospital", patient, "the dead", Duration.ofMillis(1)).orElseThrow();
    Instant before = Instant.now().minusSeconds(600);
    rows.begin(rig.deliveries.find(crashed).orElseThrow(), fence, before);
    JdbcClient jdbc = JdbcClient.create(rig.database);
    jdbc.sql(
            "update scheduled_tasks set picked = true, picked_by = 'the dead', last_heartbeat ="
                + " :at, execution_time = :at where task_instance = :id")
        .param("at", before.atOffset(ZoneOffset.UTC))
        .param("id", crashed)
        .update();
    rows.move(waiting, DeliveryState.WAITING, "was down", before, before);
    rows.move(held, DeliveryState.HELD, "somebody must look", before, null);
    jdbc.sql("delete from scheduled_tasks where task_instance = :id").param("id", held).update();
  }

  /** The rows as that program would have written them: what it had no column for is left out. */
  private static Set<String> copy(DataSource from, DataSource to) {
    Set<String> copied = new LinkedHashSet<>();
    JdbcTemplate old = new JdbcTemplate(to);
    for (String table : TABLES) {
      Set<String> columns = columns(old, table);
      if (columns.isEmpty()) {
        continue;
      }
      copied.add(table);
      for (Map<String, Object> row :
          new JdbcTemplate(from).queryForList("select * from " + table)) {
        insert(to, table, columns, row);
      }
    }
    return copied;
  }

  private static void insert(
      DataSource to, String table, Set<String> columns, Map<String, Object> row) {
    Map<String, Object> known =
        row.entrySet().stream()
            .filter(one -> one.getValue() != null)
            .filter(one -> columns.contains(one.getKey().toLowerCase(Locale.ROOT)))
            .collect(Collectors.toMap(Map.Entry::getKey, one -> plain(one.getValue())));
    JdbcTemplate jdbc = new JdbcTemplate(to);
    List<String> names = List.copyOf(known.keySet());
    jdbc.update(
        "insert into "
            + table
            + " ("
            + String.join(", ", names)
            + ") values ("
            + names.stream().map(name -> "?").collect(Collectors.joining(", "))
            + ")",
        names.stream().map(known::get).toArray());
  }

  private static Object plain(Object value) {
    return value instanceof Timestamp time ? time.toInstant().atOffset(ZoneOffset.UTC) : value;
  }

  private static Set<String> columns(JdbcTemplate jdbc, String table) {
    return jdbc
        .queryForList(
            "select lower(column_name) from information_schema.columns where lower(table_name) = ?"
                + " and lower(table_schema) = 'public'",
            String.class,
            table)
        .stream()
        .collect(Collectors.toSet());
  }
}
