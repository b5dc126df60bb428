package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Notice;
import org.intercusp.exchange.queue.Queueing;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.intercusp.exchange.records.DeliveryReport;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Consent ends: who holds the treatment is told that, and gets nothing else. */
class ConsentWithdrawnTest extends DeliveryRig {

  private final ObjectNode agreed =
      Parcels.changed(Parcels.unheardOf(), f -> consent(f).remove("withdrawnOn"));

  private static ObjectNode consent(ObjectNode file) {
    return (ObjectNode) file.at("/patient/consent");
  }

  private static LocalDate today() {
    return LocalDate.now(Clock.systemUTC());
  }

  /** The next version: consent withdrawn, and a reading corrected that must not leave any more. */
  private byte[] withdrawn(LocalDate day) {
    ObjectNode file =
        Parcels.changed(
            agreed,
            f -> {
              consent(f).put("withdrawnOn", day.toString());
              ((ObjectNode) f.at("/reviews/1")).put("overjet", 6);
            });
    return Parcels.canonical(file).getBytes(StandardCharsets.UTF_8);
  }

  private TreatmentKey delivered(Rig rig) {
    TreatmentKey key = rig.store(agreed);
    rig.await(rig.queued(key, 1, "hospital"), DeliveryState.DELIVERED);
    return key;
  }

  private StoringAndQueueing.Taken replaced(Rig rig, TreatmentKey key, LocalDate day) {
    ends.set(day);
    return new StoringAndQueueing(rig.database, rig.archive, rig.deliveries)
        .replace(key, 1, withdrawn(day), List.of());
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whoHoldsItIsToldAndNothingElseLeaves(Databases kind) {
    FakeRecords records = new FakeRecords(hospital);
    Rig rig = new Rig(kind.fresh());
    rig.start();
    TreatmentKey key = delivered(rig);
    long lines = rig.count("delivered_resource");
    int stored = records.stored();

    StoringAndQueueing.Taken taken = replaced(rig, key, today());

    assertThat(taken.deliveries()).hasSize(1);
    String id = ((Queueing.Queued) taken.deliveries().get(0)).delivery().id();
    Delivery told = rig.await(id, DeliveryState.DELIVERED);
    assertThat(told.reason()).isEqualTo(Notice.TOLD);
    assertThat(told.attempts()).isEqualTo(1);
    assertThat(told.recipient()).isEqualTo("hospital");
    JsonNode sent = new JsonMapper().readTree(records.lastWritten());
    List<String> types = new ArrayList<>();
    for (JsonNode entry : sent.path("entry")) {
      String type = entry.at("/resource/resourceType").asString();
      types.add(type);
      if (type.equals("Consent")) {
        assertThat(entry.at("/resource/status").asString()).isEqualTo("inactive");
        assertThat(entry.at("/resource/patient/reference").asString()).startsWith("Patient/");
      }
    }
    assertThat(types).contains("Consent").isSubsetOf("Consent", "Provenance");
    assertThat(records.stored()).isLessThanOrEqualTo(stored + 1);
    assertThat(records.duplicates()).isZero();
    assertThat(referrer.asked()).as("who never had it").isEmpty();
    assertThat(rig.count("delivered_resource")).as("what is remembered").isEqualTo(lines);

    ends.set(null);
    rig.archive.replace(key, 2, Parcels.canonical(agreed).getBytes(StandardCharsets.UTF_8));
    String again = rig.queued(key, 3, "hospital");
    assertThat(rig.await(again, DeliveryState.DELIVERED).attempts()).isEqualTo(1);
    DeliveryReport report = rig.deliveries.attempts(again).get(0).report();
    assertThat(report.count(DeliveryReport.Outcome.MARKED)).isZero();
    assertThat(report.count(DeliveryReport.Outcome.CREATED)).isZero();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatTheRecipientDoesNotTakeIsShown(Databases kind) {
    new FakeRecords(hospital);
    Rig rig = new Rig(kind.fresh());
    rig.start();
    TreatmentKey key = delivered(rig);
    FaultyServer.Fault no =
        (one, real) -> Said.of(422, "text/plain", "Consent is kept on paper here");
    hospital.first(one -> one.isWrite(), no);

    StoringAndQueueing.Taken taken = replaced(rig, key, today());

    String id = ((Queueing.Queued) taken.deliveries().get(0)).delivery().id();
    rig.await(id, DeliveryState.REFUSED);
    assertThat(rig.deliveries.attempts(id).get(0).words()).contains("kept on paper");
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void withdrawalOfALaterDayWaitsForItAndNothingIsSentBefore(Databases kind) {
    new FakeRecords(hospital);
    Rig rig = new Rig(kind.fresh());
    rig.start();
    TreatmentKey key = delivered(rig);
    hospital.asked().clear();
    LocalDate day = today().plusDays(3);

    StoringAndQueueing.Taken taken = replaced(rig, key, day);

    Delivery waits = ((Queueing.Queued) taken.deliveries().get(0)).delivery();
    assertThat(waits.dueAt()).isEqualTo(day.atStartOfDay(ZoneOffset.UTC).toInstant());
    rig.pause(300);
    assertThat(hospital.asked()).isEmpty();
    assertThat(rig.deliveries.queue(key, 2, "hospital")).isInstanceOf(Queueing.Existing.class);
    assertThat(rig.await(waits.id(), DeliveryState.DELIVERED).reason())
        .as("consent still holds, so asking for it sends it whole")
        .isEmpty();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void aRecipientThatHasThePatientNoLongerIsGivenNobodyNew(Databases kind) {
    FakeRecords records = new FakeRecords(hospital);
    Rig rig = new Rig(kind.fresh());
    rig.start();
    TreatmentKey key = delivered(rig);
    int stored = records.stored();
    records.forget("Patient");

    StoringAndQueueing.Taken taken = replaced(rig, key, today());

    String id = ((Queueing.Queued) taken.deliveries().get(0)).delivery().id();
    assertThat(rig.await(id, DeliveryState.REFUSED).reason()).contains("no longer holds");
    assertThat(records.stored()).isEqualTo(stored - 1);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whoWasGivenNothingIsToldNothing(Databases kind) {
    Rig rig = new Rig(kind.fresh());
    TreatmentKey key = rig.store(agreed);
    assertThat(replaced(rig, key, today()).deliveries()).isEmpty();
    assertThat(rig.deliveries.queue(key, 2, "hospital")).isInstanceOf(Queueing.Stopped.class);
    assertThat(rig.deliveries.of(key)).isEmpty();
  }
}
