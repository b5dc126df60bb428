package org.intercusp.exchange.courier;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FakeRecords;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.Queueing;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.junit.jupiter.api.BeforeEach;
import tools.jackson.databind.node.ObjectNode;

/** A treatment whose consent ends in a version of its own, and a hospital that may be down. */
abstract class WithdrawalRig extends DeliveryRig {

  final AtomicBoolean up = new AtomicBoolean();
  final ObjectNode agreed =
      Parcels.changed(Parcels.unheardOf(), f -> consent(f).remove("withdrawnOn"));
  FakeRecords records;

  @BeforeEach
  void down() {
    owned.set(true);
    hospital.first(one -> !up.get(), (one, real) -> Said.of(503, "text/plain", "not now"));
    records = new FakeRecords(hospital);
  }

  static ObjectNode consent(ObjectNode file) {
    return (ObjectNode) file.at("/patient/consent");
  }

  static LocalDate today() {
    return LocalDate.now(Clock.systemUTC());
  }

  byte[] withdrawn(LocalDate day) {
    return bytes(Parcels.changed(agreed, f -> consent(f).put("withdrawnOn", day.toString())));
  }

  static byte[] bytes(ObjectNode file) {
    return Parcels.canonical(file).getBytes(StandardCharsets.UTF_8);
  }

  static List<Queueing> replaced(
      Rig rig, TreatmentKey key, int expected, byte[] file, String... to) {
    return new StoringAndQueueing(rig.database, rig.archive, rig.deliveries)
        .replace(key, expected, file, List.of(to))
        .deliveries();
  }

  static Delivery only(List<Queueing> queued) {
    assertThat(queued).hasSize(1);
    return ((Queueing.Queued) queued.get(0)).delivery();
  }
}
