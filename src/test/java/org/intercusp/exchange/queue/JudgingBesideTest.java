package org.intercusp.exchange.queue;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import javax.sql.DataSource;
import org.intercusp.archive.Databases;
import org.intercusp.archive.Expression;
import org.intercusp.archive.ResourceTerms;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.DeliveryRig;
import org.intercusp.exchange.FaultyServer;
import org.intercusp.exchange.Parcels;
import org.intercusp.exchange.recipient.Clearance;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.treatment.ConsentScope;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.node.ObjectNode;

/** While one treatment of a clinic is judged, which is slow, others of it can be stored. */
class JudgingBesideTest {

  private static final Duration PATIENCE = Duration.ofSeconds(60);

  private final FaultyServer hospital = new FaultyServer(null);
  private final CountDownLatch judging = new CountDownLatch(1);
  private final CountDownLatch judged = new CountDownLatch(1);

  @AfterEach
  void end() {
    judged.countDown();
    hospital.close();
  }

  @ParameterizedTest
  @MethodSource(DeliveryRig.DATABASES)
  void othersOfTheClinicAreStoredMeanwhile(Databases kind) {
    DataSource database = kind.fresh();
    TreatmentArchive archive =
        TreatmentArchive.filing(database, Clock.systemUTC(), new NoResources());
    StoringAndQueueing intake = intake(database, archive);
    CompletableFuture<StoringAndQueueing.Taken> first =
        CompletableFuture.supplyAsync(() -> store(intake, "T1", List.of("hospital")));
    await(judging);

    CompletableFuture<StoringAndQueueing.Taken> second =
        CompletableFuture.supplyAsync(() -> store(intake, "T2", List.of()));

    assertThat(second).succeedsWithin(Duration.ofSeconds(10));
    assertThat(first).isNotDone();
    judged.countDown();
    assertThat(first).succeedsWithin(PATIENCE);
    assertThat(first.join().storing()).isInstanceOf(Storing.Stored.class);
    assertThat(first.join().deliveries()).singleElement().isInstanceOf(Queueing.Queued.class);
  }

  private StoringAndQueueing intake(DataSource database, TreatmentArchive archive) {
    Recipients recipients =
        new Recipients(
            List.of(
                new Recipient("hospital", "Hospital", hospital.target(), ConsentScope.HOSPITAL)));
    Deliveries deliveries =
        new Deliveries(database, archive, recipients, this::slowly, Clock.systemUTC());
    return new StoringAndQueueing(database, archive, deliveries);
  }

  private Clearance.Answer slowly(StoredTreatment stored, ConsentScope scope) {
    judging.countDown();
    await(judged);
    return new Clearance.Answer.Ready(Parcels.bundle(Parcels.file(stored.bytes())));
  }

  private static StoringAndQueueing.Taken store(
      StoringAndQueueing intake, String id, List<String> recipients) {
    ObjectNode file = Parcels.brief("one", id, id);
    byte[] canonical = Parcels.canonical(file).getBytes(StandardCharsets.UTF_8);
    return intake.store(TreatmentKey.of(Parcels.read(file)), canonical, recipients);
  }

  private static void await(CountDownLatch latch) {
    try {
      assertThat(latch.await(PATIENCE.toSeconds(), TimeUnit.SECONDS)).isTrue();
    } catch (InterruptedException e) {
      throw new IllegalStateException(e);
    }
  }

  /** The clinic's row is held all the same. */
  private static final class NoResources implements Expression {

    @Override
    public List<Expressed> of(StoredTreatment treatment) {
      return List.of();
    }

    @Override
    public String withdrawn(String content) {
      return content;
    }

    @Override
    public ResourceTerms terms(String content) {
      return ResourceTerms.NONE;
    }

    @Override
    public int termsForm() {
      return 1;
    }
  }
}
