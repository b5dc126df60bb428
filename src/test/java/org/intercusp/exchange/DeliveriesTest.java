package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.BooleanSupplier;
import javax.sql.DataSource;
import org.intercusp.archive.Databases;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Deliveries on both databases, to servers that misbehave to order. */
class DeliveriesTest {

  static final String DATABASES = "org.intercusp.archive.Databases#all";

  private static final DeliverySettings QUICK =
      new DeliverySettings(
          4,
          2,
          Duration.ofMillis(50),
          Duration.ofSeconds(2),
          Duration.ofMillis(60),
          Duration.ofMillis(200),
          Duration.ofMinutes(5),
          3);

  private final List<AutoCloseable> open = new ArrayList<>();
  private final FaultyServer hospital = new FaultyServer(null);
  private final FaultyServer referrer = new FaultyServer(null);
  private final AtomicBoolean consent = new AtomicBoolean(true);
  private final Recipients recipients =
      new Recipients(
          List.of(
              new Recipient("hospital", "Hospital", hospital.target(), ConsentScope.HOSPITAL),
              new Recipient("referrer", "Referrer", referrer.target(), ConsentScope.REFERRER)));

  @AfterEach
  void end() throws Exception {
    for (AutoCloseable one : open) {
      one.close();
    }
    hospital.close();
    referrer.close();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void queuesOnceForAVersionAndARecipient(Databases kind) {
    Rig rig = new Rig(kind.fresh());
    TreatmentKey key = rig.store(Parcels.unheardOf());

    Queueing first = rig.deliveries.queue(key, 1, "hospital");
    Queueing again = rig.deliveries.queue(key, 1, "hospital");

    Delivery delivery = ((Queueing.Queued) first).delivery();
    assertThat(again).isEqualTo(new Queueing.Existing(delivery));
    assertThat(rig.deliveries.find(delivery.id())).contains(delivery);
    assertThat(rig.deliveries.queue(key, 1, "referrer")).isInstanceOf(Queueing.Queued.class);
    assertThat(rig.deliveries.queue(key, 1, "nobody"))
        .isEqualTo(new Queueing.UnknownRecipient("nobody"));
    assertThat(rig.deliveries.queue(key, 2, "hospital")).isEqualTo(new Queueing.NoSuchTreatment());
    assertThat(rig.deliveries.of(key)).hasSize(2);
    assertThat(rig.deliveries.newest(0, 10)).hasSize(2);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void storesAndQueuesBothOrNeither(Databases kind) {
    DataSource database = kind.fresh();
    Rig rig = new Rig(database);
    ObjectNode file = Parcels.unheardOf();
    TreatmentKey key = TreatmentKey.of(Parcels.read(file));
    Intake intake = new Intake(database, rig.archive, rig.deliveries);
    byte[] content = Parcels.canonical(file).getBytes(StandardCharsets.UTF_8);

    assertThatThrownBy(
            () ->
                new TransactionTemplate(new JdbcTransactionManager(database))
                    .executeWithoutResult(
                        status -> {
                          intake.store(key, content, List.of("hospital"));
                          throw new IllegalStateException("power cut");
                        }))
        .isInstanceOf(IllegalStateException.class);
    assertThat(rig.archive.current(key)).isEmpty();
    assertThat(rig.deliveries.newest(0, 10)).isEmpty();
    assertThat(rig.count("scheduled_tasks")).as("wake-ups").isZero();

    Intake.Taken taken = intake.store(key, content, List.of("hospital", "referrer"));
    assertThat(taken.deliveries()).hasSize(2).allMatch(Queueing.Queued.class::isInstance);
    assertThat(rig.count("scheduled_tasks")).as("wake-ups").isEqualTo(2);
    assertThat(intake.store(key, content, List.of("hospital")).deliveries()).isEmpty();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void asksTheGateWhenQueueingAndAgainBeforeSending(Databases kind) {
    Rig rig = new Rig(kind.fresh());
    TreatmentKey key = rig.store(Parcels.unheardOf());
    consent.set(false);
    assertThat(rig.deliveries.queue(key, 1, "hospital")).isInstanceOf(Queueing.Stopped.class);
    assertThat(rig.deliveries.of(key)).isEmpty();

    consent.set(true);
    String id = rig.queued(key, 1, "hospital");
    consent.set(false);
    rig.start();
    Delivery held = rig.await(id, DeliveryState.HELD);

    assertThat(held.reason()).contains("consent-missing");
    assertThat(hospital.asked()).isEmpty();
  }

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

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whoLostTheLaneWritesDownNothing(Databases kind) {
    DataSource database = kind.fresh();
    Rig rig = new Rig(database);
    String id = rig.queued(rig.store(Parcels.unheardOf()), 1, "hospital");
    Lanes lanes = new Lanes(database);
    DeliveryRows rows = new DeliveryRows(database);
    lanes.open("hospital", "p");
    Delivery delivery = rows.find(id).orElseThrow();
    long sleeper = lanes.take("hospital", "p", "sleeper", Duration.ofMillis(1)).orElseThrow();
    rows.begin(delivery, sleeper, delivery.queuedAt());
    rig.pause(20);

    long heir = lanes.take("hospital", "p", "heir", Duration.ofMinutes(1)).orElseThrow();
    Delivery again = rows.find(id).orElseThrow();
    rows.begin(again, heir, delivery.queuedAt());
    Ending ending = Ending.held("late");

    assertThat(heir).isGreaterThan(sleeper);
    assertThat(lanes.renew("hospital", "p", sleeper, Duration.ofMinutes(1))).isFalse();
    assertThat(lanes.take("hospital", "p", "third", Duration.ofMinutes(1))).isEmpty();
    assertThat(rows.end(delivery, sleeper, ending, delivery.queuedAt(), null)).isFalse();
    assertThat(rows.find(id).orElseThrow().state()).isEqualTo(DeliveryState.UNDER_WAY);
    assertThat(rows.end(again, heir, ending, delivery.queuedAt(), null)).isTrue();
    lanes.release("hospital", "p", sleeper);
    assertThat(lanes.take("hospital", "p", "third", Duration.ofMinutes(1))).isEmpty();
    lanes.release("hospital", "p", heir);
    assertThat(lanes.take("hospital", "p", "third", Duration.ofMinutes(1))).isPresent();
  }

  /** An instance of the service on a database. */
  private final class Rig {
    final TreatmentArchive archive;
    final Deliveries deliveries;
    private final DataSource database;

    Rig(DataSource database) {
      this.database = database;
      this.archive = new TreatmentArchive(database, Clock.systemUTC());
      this.deliveries =
          new Deliveries(database, archive, recipients, this::clear, Clock.systemUTC());
    }

    void start() {
      Clockwork clockwork =
          new Clockwork(
              database,
              archive,
              recipients,
              this::clear,
              Clients.within(Duration.ofSeconds(30)),
              QUICK,
              Clock.systemUTC());
      open.add(clockwork);
      clockwork.start();
    }

    private Clearance.Answer clear(StoredTreatment stored, ConsentScope scope) {
      if (!consent.get()) {
        return new Clearance.Answer.Stopped(List.of(missing()));
      }
      ObjectNode file = (ObjectNode) new JsonMapper().readTree(stored.bytes());
      return new Clearance.Answer.Ready(Parcels.bundle(file));
    }

    TreatmentKey store(ObjectNode file) {
      Treatment treatment = Parcels.read(file);
      TreatmentKey key = TreatmentKey.of(treatment);
      archive.store(key, Parcels.canonical(treatment).getBytes(StandardCharsets.UTF_8));
      return key;
    }

    String queued(TreatmentKey key, int version, String recipient) {
      return ((Queueing.Queued) deliveries.queue(key, version, recipient)).delivery().id();
    }

    long count(String table) {
      return JdbcClient.create(database)
          .sql("select count(*) from " + table)
          .query(Long.class)
          .single();
    }

    Delivery await(String id, DeliveryState state) {
      eventually(() -> deliveries.find(id).orElseThrow().state() == state);
      return deliveries.find(id).orElseThrow();
    }

    void eventually(BooleanSupplier what) {
      long end = System.nanoTime() + Duration.ofSeconds(20).toNanos();
      while (!what.getAsBoolean()) {
        if (System.nanoTime() > end) {
          throw new AssertionError("not in time; deliveries: " + deliveries.newest(0, 50));
        }
        pause(20);
      }
    }

    void pause(long millis) {
      try {
        Thread.sleep(millis);
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }
  }

  private static Finding missing() {
    return new Finding(
        "consent-missing",
        Severity.REFUSED,
        Pointer.ROOT,
        "T1",
        null,
        null,
        null,
        "No consent.",
        "Ask.",
        Source.COMMON_PRACTICE,
        Map.of());
  }
}
