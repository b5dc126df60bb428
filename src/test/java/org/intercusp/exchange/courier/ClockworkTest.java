package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import javax.sql.DataSource;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.Attempt;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.records.DeliveryReport;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.node.ObjectNode;

/** What the workers make of queued deliveries, on both databases. */
class ClockworkTest extends DeliveryRig {

  @ParameterizedTest
  @MethodSource(DATABASES)
  void waitsForAServerThatIsDownWithoutHoldingUpOthers(Databases kind) {
    hospital.always(one -> true, (one, real) -> Said.nothing());
    FakeRecords records = new FakeRecords(referrer);
    Rig rig = new Rig(kind.fresh());
    List<String> down = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      down.add(rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital"));
    }
    TreatmentKey key = rig.store(Parcels.unheardOf());
    String up = rig.queued(key, 1, "referrer");
    rig.start();

    Delivery delivered = rig.await(up, DeliveryState.DELIVERED);
    Delivery waiting = rig.await(down.get(0), DeliveryState.WAITING);

    assertThat(delivered.attempts()).isEqualTo(1);
    assertThat(records.stored()).isPositive();
    DeliveryReport report = rig.deliveries.attempts(up).get(0).report();
    assertThat(report.entries()).hasSizeGreaterThan(40).allMatch(entry -> entry.id() != null);
    assertThat(waiting.reason()).contains("broke").doesNotContain("Exception");
    assertThat(waiting.dueAt()).isNotNull();
    Attempt attempt = rig.deliveries.attempts(down.get(0)).get(0);
    assertThat(attempt.outcome()).isEqualTo(DeliveryState.WAITING);
    assertThat(attempt.endedAt()).isAfterOrEqualTo(attempt.startedAt());
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void keepsARefusalWithTheServersWordsUntilAPersonTriesAgain(Databases kind) {
    hospital.fault(
        1,
        one -> one.isWrite(),
        (one, real) -> Said.of(422, "text/plain", "Device\0 is not for us"));
    FakeRecords records = new FakeRecords(hospital);
    Rig rig = new Rig(kind.fresh());
    String id = rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");
    rig.start();

    Delivery refused = rig.await(id, DeliveryState.REFUSED);
    Attempt attempt = rig.deliveries.attempts(id).get(0);
    assertThat(refused.dueAt()).isNull();
    assertThat(attempt.status()).isEqualTo(422);
    assertThat(attempt.words()).contains("is not for us");
    assertThat(records.stored()).isZero();

    rig.deliveries.retry(id);
    assertThat(rig.await(id, DeliveryState.DELIVERED).attempts()).isEqualTo(2);
    assertThat(rig.deliveries.retry(id).orElseThrow().state()).isEqualTo(DeliveryState.DELIVERED);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void sendsTheNewestVersionAndMarksWhatWentAwayByTheLedger(Databases kind) {
    FakeRecords records = new FakeRecords(hospital);
    Rig rig = new Rig(kind.fresh());
    ObjectNode file = Parcels.unheardOf();
    TreatmentKey key = rig.store(file);
    String first = rig.queued(key, 1, "hospital");
    rig.start();
    rig.await(first, DeliveryState.DELIVERED);
    ObjectNode without =
        Parcels.changed(
            file, f -> ((tools.jackson.databind.node.ArrayNode) f.path("reviews")).remove(1));

    rig.archive.replace(key, 1, Parcels.canonical(without).getBytes(StandardCharsets.UTF_8));
    hospital.asked().clear();
    String second = rig.queued(key, 2, "hospital");
    rig.await(second, DeliveryState.DELIVERED);

    DeliveryReport report = rig.deliveries.attempts(second).get(0).report();
    assertThat(report.count(DeliveryReport.Outcome.MARKED)).isPositive();
    assertThat(report.count(DeliveryReport.Outcome.CREATED)).isZero();
    assertThat(hospital.asked())
        .as("the ledger knows what went away: no survey by patient")
        .noneMatch(one -> one.query().startsWith("subject=") || one.query().startsWith("patient="));
    assertThat(records.stored()).isPositive();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void overtakesAnOlderVersionThatStillWaits(Databases kind) {
    FakeRecords records = new FakeRecords(hospital);
    Rig rig = new Rig(kind.fresh());
    ObjectNode file = Parcels.unheardOf();
    TreatmentKey key = rig.store(file);
    String first = rig.queued(key, 1, "hospital");
    ObjectNode newer =
        Parcels.changed(file, f -> ((ObjectNode) f.at("/reviews/1")).put("overjet", 6));
    rig.archive.replace(key, 1, Parcels.canonical(newer).getBytes(StandardCharsets.UTF_8));
    String second = rig.queued(key, 2, "hospital");
    rig.start();

    rig.await(second, DeliveryState.DELIVERED);
    Delivery overtaken = rig.await(first, DeliveryState.GIVEN_UP);

    assertThat(overtaken.reason()).isEqualTo("Overtaken by version 2");
    assertThat(overtaken.attempts()).isZero();
    assertThat(records.mostVersions()).isEqualTo(1);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void twoInstancesShareTheWorkAndSendNothingTwice(Databases kind) {
    FakeRecords records = new FakeRecords(hospital);
    DataSource database = kind.fresh();
    Rig one = new Rig(database);
    Rig other = new Rig(database);
    List<String> ids = new ArrayList<>();
    ObjectNode patient = Parcels.unheardOf();
    for (int i = 0; i < 24; i++) {
      int number = i;
      // Every third concerns the same patient.
      ObjectNode file =
          i % 3 == 0
              ? Parcels.changed(patient, f -> f.put("id", "T" + number))
              : Parcels.unheardOf();
      ids.add(one.queued(one.store(file), 1, "hospital"));
    }
    long begin = System.nanoTime();
    one.start();
    other.start();

    ids.forEach(id -> one.await(id, DeliveryState.DELIVERED));

    System.out.printf(
        "%s: 24 deliveries by two instances in %d ms%n",
        kind, (System.nanoTime() - begin) / 1_000_000);
    for (String id : ids) {
      assertThat(one.deliveries.attempts(id)).hasSize(1);
    }
    assertThat(records.mostVersions()).isEqualTo(1);
    assertThat(records.duplicates()).isZero();
    assertThat(records.mostAtOnceForAPatient()).isEqualTo(1);
    assertThat(one.deliveries.count(DeliveryState.DELIVERED)).isEqualTo(24);
    one.eventually(() -> one.count("scheduled_tasks") == 0);
  }
}
