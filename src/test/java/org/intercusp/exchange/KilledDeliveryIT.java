package org.intercusp.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import com.zaxxer.hikari.HikariDataSource;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Clock;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import org.intercusp.archive.Databases;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Queueing;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.intercusp.exchange.recipient.Clearance;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.node.ObjectNode;

/**
 * A worker is killed with a delivery under way; the next one ends it, and nothing is there twice.
 */
class KilledDeliveryIT {

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(booleans = {false, true})
  void theNextOneEndsIt(boolean stored) throws Exception {
    Path file = folder.resolve("deliveries");
    CountDownLatch writing = new CountDownLatch(1);
    FaultyServer server = new FaultyServer(null);
    FakeRecords records = new FakeRecords(server, 1, stored, writing::countDown);
    String id = queued(file, server);

    Process first = worker(file, server);
    assertThat(writing.await(60, TimeUnit.SECONDS)).isTrue();
    first.destroyForcibly().waitFor();
    assertThat(records.stored() > 0).isEqualTo(stored);

    int askedBefore = server.asked().size();
    Process second = worker(file, server);
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(90);
    while ((server.asked().size() == askedBefore
            || records.stored() == 0
            || !records.isQuietSince(3_000))
        && System.nanoTime() < end) {
      Thread.sleep(100);
    }
    second.getOutputStream().close();
    assertThat(second.waitFor(40, TimeUnit.SECONDS)).isTrue();

    try (HikariDataSource database = Databases.file(file)) {
      Deliveries deliveries = deliveries(database, server);
      Delivery delivery = deliveries.find(id).orElseThrow();
      assertThat(delivery.state()).isEqualTo(DeliveryState.DELIVERED);
      // Where a look shows nothing, it is first waited until the first write is settled.
      assertThat(delivery.attempts()).isBetween(2, stored ? 2 : 6);
      assertThat(deliveries.attempts(id).get(0).endedAt()).isNull();
      assertThat(deliveries.attempts(id).get(delivery.attempts() - 1).report().duplicates())
          .isEmpty();
    }
    assertThat(records.duplicates()).isZero();
    assertThat(records.mostVersions()).isEqualTo(1);
    server.close();
  }

  private static String queued(Path file, FaultyServer server) {
    try (HikariDataSource database = Databases.file(file)) {
      ObjectNode content = Parcels.unheardOf();
      TreatmentKey key = TreatmentKey.of(Parcels.read(content));
      StoringAndQueueing intake =
          new StoringAndQueueing(
              database,
              new TreatmentArchive(database, Clock.systemUTC()),
              deliveries(database, server));
      StoringAndQueueing.Taken taken =
          intake.store(
              key,
              Parcels.canonical(content).getBytes(StandardCharsets.UTF_8),
              java.util.List.of("hospital"));
      return ((Queueing.Queued) taken.deliveries().get(0)).delivery().id();
    }
  }

  private static Deliveries deliveries(HikariDataSource database, FaultyServer server) {
    return new Deliveries(
        database,
        new TreatmentArchive(database, Clock.systemUTC()),
        DeliveryWorker.hospital(server.baseUrl()),
        (stored, scope) ->
            new Clearance.Answer.Ready(
                Parcels.bundle(
                    (ObjectNode)
                        new tools.jackson.databind.json.JsonMapper().readTree(stored.bytes()))),
        Clock.systemUTC());
  }

  private Process worker(Path file, FaultyServer server) throws IOException {
    return new ProcessBuilder(
            Path.of(System.getProperty("java.home"), "bin", "java").toString(),
            "-Xmx512m",
            "-cp",
            System.getProperty("java.class.path"),
            DeliveryWorker.class.getName(),
            file.toString(),
            server.baseUrl().toString())
        .redirectErrorStream(true)
        .redirectOutput(folder.resolve("worker.log").toFile())
        .start();
  }
}
