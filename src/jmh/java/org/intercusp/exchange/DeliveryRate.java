package org.intercusp.exchange;

import com.zaxxer.hikari.HikariDataSource;
import java.io.IOException;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import javax.sql.DataSource;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.archive.Databases;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.courier.Clockwork;
import org.intercusp.exchange.courier.DeliverySettings;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.Queueing;
import org.intercusp.exchange.recipient.Clearance;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.RecordsClient;
import org.intercusp.exchange.wire.Target;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.Treatment;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Durable deliveries, eight at a time, beside a bare loop that posts the same Bundles with the same
 * kind of client to the same stub, which answers after 5 ms; and what one durable write costs on
 * this disk. The embedded database keeps a file, as in service.
 *
 * <p>{@code mvn -Pbench test -Dbench.main=org.intercusp.exchange.DeliveryRate}
 */
public final class DeliveryRate {

  private static final int AT_ONCE = 8;
  private static final int DELIVERIES = Integer.getInteger("bench.deliveries", 400);
  private static final int WARM_UP = Integer.getInteger("bench.warmup", 100);
  private static final Duration ANSWER = Duration.ofMillis(5);
  private static final DeliverySettings SETTINGS =
      new DeliverySettings(
          AT_ONCE,
          AT_ONCE,
          Duration.ofMillis(50),
          Duration.ofSeconds(30),
          Duration.ofSeconds(15),
          Duration.ofHours(1),
          Duration.ofDays(7),
          8,
          Duration.ofMinutes(2));

  private DeliveryRate() {}

  /** Takes no arguments. */
  public static void main(String[] arguments) throws Exception {
    Path folder = Files.createTempDirectory("delivery-rate");
    try (StubRecords stub = new StubRecords(ANSWER, types());
        HikariDataSource database = Databases.file(folder.resolve("treatments"))) {
      DeliveryRate.run(stub, database, folder);
    }
  }

  private static void run(StubRecords stub, HikariDataSource database, Path folder)
      throws Exception {
    Recipients recipients =
        new Recipients(
            List.of(
                new Recipient(
                    "hospital", "Hospital", Target.of(stub.base()), ConsentScope.HOSPITAL)));
    Clock clock = Clock.systemUTC();
    TreatmentArchive archive = new TreatmentArchive(database, clock);
    Clearance clearance = (stored, scope) -> new Clearance.Answer.Ready(bundle(stored));
    Deliveries deliveries = new Deliveries(database, archive, recipients, clearance, clock);
    RecordsClient client = Clients.within(Duration.ofSeconds(30));
    try (Clockwork clockwork =
        Clockwork.of(
                database,
                new Clockwork.Sending(archive, recipients, clearance, client),
                SETTINGS,
                clock)
            .build()) {
      clockwork.start();
      List<byte[]> bundles = new ArrayList<>();
      durable(database, archive, deliveries, WARM_UP, bundles);
      bare(stub, bundles);
      bundles.clear();
      long before = stub.asked();
      double durable = durable(database, archive, deliveries, DELIVERIES, bundles);
      double calls = (stub.asked() - before) / (double) DELIVERIES;
      double bare = bare(stub, bundles);
      List<byte[]> one = new ArrayList<>();
      double alone = 0;
      for (int i = 0; i < 20; i++) {
        alone += 1_000 / durable(database, archive, deliveries, 1, one) / 20;
      }
      System.out.printf("deliveries a second, %d at a time     %8.1f%n", AT_ONCE, durable);
      System.out.printf("bare posts a second, %d at a time     %8.1f%n", AT_ONCE, bare);
      System.out.printf("ratio                               %8.3f%n", durable / bare);
      System.out.printf("requests a delivery                 %8.1f%n", calls);
      System.out.printf("one delivery alone, ms              %8.1f%n", alone);
      System.out.printf("one durable write of 4 kB, ms       %8.2f%n", durableWrite(folder));
    }
  }

  /** What a treatment becomes, and the Provenance that goes with it. */
  private static Set<String> types() {
    Set<String> types = new TreeSet<>(Set.of("Provenance"));
    Parcels.bundle(Parcels.unheardOf())
        .getEntry()
        .forEach(entry -> types.add(entry.getResource().fhirType()));
    return types;
  }

  private static Bundle bundle(StoredTreatment stored) {
    return Parcels.bundle(Parcels.file(stored.bytes()));
  }

  private static double durable(
      DataSource database,
      TreatmentArchive archive,
      Deliveries deliveries,
      int count,
      List<byte[]> bundles)
      throws InterruptedException {
    List<TreatmentKey> keys = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      Treatment treatment = Parcels.read(Parcels.unheardOf());
      byte[] bytes = Parcels.canonical(treatment).getBytes(StandardCharsets.UTF_8);
      archive.store(TreatmentKey.of(treatment), bytes);
      keys.add(TreatmentKey.of(treatment));
      Bundle bundle = Parcels.bundle(Parcels.file(bytes));
      bundles.add(
          Clients.R4
              .newJsonParser()
              .encodeResourceToString(bundle)
              .getBytes(StandardCharsets.UTF_8));
    }
    long begin = System.nanoTime();
    List<String> open = new ArrayList<>();
    for (TreatmentKey key : keys) {
      open.add(((Queueing.Queued) deliveries.queue(key, 1, "hospital")).delivery().id());
    }
    awaitDelivered(database, open);
    return count / seconds(begin);
  }

  /** Looked up in the table itself: through its door every look would be written down, durably. */
  private static void awaitDelivered(DataSource database, List<String> ids)
      throws InterruptedException {
    JdbcClient jdbc = JdbcClient.create(database);
    long end = System.nanoTime() + Duration.ofMinutes(10).toNanos();
    while (true) {
      long open =
          jdbc.sql("select count(*) from delivery where id in (:ids) and state <> 'delivered'")
              .param("ids", ids)
              .query(Long.class)
              .single();
      if (open == 0) {
        return;
      }
      if (System.nanoTime() > end) {
        throw new IllegalStateException(open + " are not delivered");
      }
      Thread.sleep(ids.size() == 1 ? 2 : 50);
    }
  }

  private static double bare(StubRecords stub, List<byte[]> bundles) throws Exception {
    HttpClient http = HttpClient.newHttpClient();
    ExecutorService workers = Executors.newFixedThreadPool(AT_ONCE);
    try {
      List<Callable<Integer>> posts = new ArrayList<>();
      for (byte[] bundle : bundles) {
        posts.add(() -> post(http, stub, bundle));
      }
      long begin = System.nanoTime();
      for (var answer : workers.invokeAll(posts)) {
        if (answer.get() != 200) {
          throw new IOException("The stub did not take a Bundle");
        }
      }
      return bundles.size() / seconds(begin);
    } finally {
      workers.shutdownNow();
    }
  }

  private static int post(HttpClient http, StubRecords stub, byte[] bundle) throws Exception {
    HttpRequest request =
        HttpRequest.newBuilder(stub.base())
            .header("Content-Type", "application/fhir+json")
            .POST(HttpRequest.BodyPublishers.ofByteArray(bundle))
            .build();
    return http.send(request, HttpResponse.BodyHandlers.ofByteArray()).statusCode();
  }

  private static double durableWrite(Path folder) throws IOException {
    double[] costs = new double[21];
    ByteBuffer page = ByteBuffer.allocate(4_096);
    try (FileChannel file =
        FileChannel.open(
            folder.resolve("page"), StandardOpenOption.CREATE, StandardOpenOption.WRITE)) {
      for (int i = 0; i < costs.length; i++) {
        long begin = System.nanoTime();
        file.write(page.rewind());
        file.force(false);
        costs[i] = seconds(begin) * 1_000;
      }
    }
    Arrays.sort(costs);
    return costs[costs.length / 2];
  }

  private static double seconds(long begin) {
    return (System.nanoTime() - begin) / 1e9;
  }
}
