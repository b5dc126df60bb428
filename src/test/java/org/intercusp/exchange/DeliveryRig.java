package org.intercusp.exchange;

import io.micrometer.prometheusmetrics.PrometheusConfig;
import io.micrometer.prometheusmetrics.PrometheusMeterRegistry;
import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import javax.sql.DataSource;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.courier.Clockwork;
import org.intercusp.exchange.courier.DeliveryMeters;
import org.intercusp.exchange.courier.DeliverySettings;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Queueing;
import org.intercusp.exchange.recipient.Clearance;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Deliveries to servers that misbehave to order, by as many instances as a test wants. */
public abstract class DeliveryRig {

  public static final String DATABASES = "org.intercusp.archive.Databases#all";

  public static final DeliverySettings QUICK =
      new DeliverySettings(
          4,
          2,
          Duration.ofMillis(50),
          Duration.ofSeconds(2),
          Duration.ofMillis(60),
          Duration.ofMillis(200),
          Duration.ofMinutes(5),
          3,
          Duration.ofSeconds(2));

  public final List<AutoCloseable> open = new ArrayList<>();
  public final FaultyServer hospital = new FaultyServer(null);
  public final FaultyServer referrer = new FaultyServer(null);
  public final PrometheusMeterRegistry meters =
      new PrometheusMeterRegistry(PrometheusConfig.DEFAULT);
  public final AtomicBoolean consent = new AtomicBoolean(true);

  /** The first day without consent; null while none is in sight. */
  public final AtomicReference<LocalDate> ends = new AtomicReference<>();

  /** Whether a version's own day of withdrawal counts instead. */
  public final AtomicBoolean owned = new AtomicBoolean();

  /** Whether something else than consent stops every version. */
  public final AtomicBoolean wrong = new AtomicBoolean();

  public final Clearance gate = new ConsentAlone();
  public final Recipients recipients =
      new Recipients(
          List.of(
              new Recipient(
                  "hospital", "Hospital", hospital.target(), ConsentScope.HOSPITAL, pollEvery()),
              new Recipient("referrer", "Referrer", referrer.target(), ConsentScope.REFERRER)));

  /** How often the hospital is asked for changes; null where it never is. */
  public @Nullable Duration pollEvery() {
    return null;
  }

  @AfterEach
  void end() throws Exception {
    for (AutoCloseable one : open) {
      one.close();
    }
    hospital.close();
    referrer.close();
  }

  /** An instance of the service on a database. */
  public final class Rig {
    public final TreatmentArchive archive;
    public final Deliveries deliveries;
    public final DataSource database;

    public Rig(DataSource database) {
      this.database = database;
      this.archive = new TreatmentArchive(database, Clock.systemUTC());
      this.deliveries = new Deliveries(database, archive, recipients, gate, Clock.systemUTC());
    }

    public void start() {
      Clockwork clockwork =
          Clockwork.of(
                  database,
                  new Clockwork.Sending(
                      archive, recipients, gate, Clients.within(Duration.ofSeconds(30))),
                  QUICK,
                  Clock.systemUTC())
              .metered(new DeliveryMeters(meters, database, recipients, Clock.systemUTC()))
              .build();
      open.add(clockwork);
      clockwork.start();
    }

    public TreatmentKey store(ObjectNode file) {
      Treatment treatment = Parcels.read(file);
      TreatmentKey key = TreatmentKey.of(treatment);
      archive.store(key, Parcels.canonical(treatment).getBytes(StandardCharsets.UTF_8));
      return key;
    }

    public String queued(TreatmentKey key, int version, String recipient) {
      return ((Queueing.Queued) deliveries.queue(key, version, recipient)).delivery().id();
    }

    public long count(String table) {
      return JdbcClient.create(database)
          .sql("select count(*) from " + table)
          .query(Long.class)
          .single();
    }

    public Delivery await(String id, DeliveryState state) {
      eventually(() -> deliveries.find(id).orElseThrow().state() == state);
      return deliveries.find(id).orElseThrow();
    }

    public void eventually(BooleanSupplier what) {
      long end = System.nanoTime() + Duration.ofSeconds(60).toNanos();
      while (!what.getAsBoolean()) {
        if (System.nanoTime() > end) {
          throw new AssertionError("not in time; deliveries: " + deliveries.newest(0, 50));
        }
        pause(20);
      }
    }

    public void pause(long millis) {
      try {
        Thread.sleep(millis);
      } catch (InterruptedException e) {
        throw new IllegalStateException(e);
      }
    }
  }

  /** Lets through while there is consent. */
  private final class ConsentAlone implements Clearance {

    @Override
    public Answer clear(StoredTreatment stored, ConsentScope scope) {
      List<Finding> stopping = new ArrayList<>(consent(stored, scope).stream().toList());
      if (wrong.get()) {
        stopping.add(finding("review-regress", Severity.ERROR));
      }
      return stopping.isEmpty() ? new Answer.Ready(bundle(stored)) : new Answer.Stopped(stopping);
    }

    @Override
    public Optional<Finding> consent(StoredTreatment stored, ConsentScope scope) {
      LocalDate today = LocalDate.now(Clock.systemUTC());
      boolean ended = end(stored).filter(day -> !day.isAfter(today)).isPresent();
      return consent.get() && !ended
          ? Optional.empty()
          : Optional.of(finding("consent-missing", Severity.REFUSED));
    }

    @Override
    public Optional<Ended> ended(StoredTreatment stored, ConsentScope scope) {
      return end(stored).map(day -> new Ended(day, bundle(stored)));
    }

    /** A jaw that locks is the sign of harm of these tests. */
    @Override
    public boolean bringsHarm(StoredTreatment now, Supplier<Optional<StoredTreatment>> before) {
      return locks(now) && before.get().filter(ConsentAlone::locks).isEmpty();
    }

    private static boolean locks(StoredTreatment stored) {
      return file(stored)
          .path("reviews")
          .valueStream()
          .flatMap(review -> review.path("jointSigns").valueStream())
          .anyMatch(sign -> sign.asString().equals("locking"));
    }

    private Optional<LocalDate> end(StoredTreatment stored) {
      if (!owned.get()) {
        return Optional.ofNullable(ends.get());
      }
      String own = file(stored).at("/patient/consent/withdrawnOn").asString("");
      return own.isEmpty() ? Optional.empty() : Optional.of(LocalDate.parse(own));
    }

    private static ObjectNode file(StoredTreatment stored) {
      return (ObjectNode) new JsonMapper().readTree(stored.bytes());
    }

    private static Bundle bundle(StoredTreatment stored) {
      return Parcels.bundle(file(stored));
    }
  }

  private static Finding finding(String code, Severity severity) {
    return new Finding(
        code,
        severity,
        Pointer.ROOT,
        "T1",
        null,
        null,
        null,
        "It may not go.",
        "Ask.",
        Source.COMMON_PRACTICE,
        Map.of());
  }
}
