package org.intercusp.bulk;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import ch.qos.logback.classic.Logger;
import ch.qos.logback.classic.spi.ILoggingEvent;
import ch.qos.logback.core.read.ListAppender;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import java.util.function.Supplier;
import javax.sql.DataSource;
import org.intercusp.access.Caller;
import org.intercusp.access.Clinic;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Reach;
import org.intercusp.access.Scopes;
import org.intercusp.archive.Databases;
import org.intercusp.archive.Expression;
import org.intercusp.archive.Expression.Expressed;
import org.intercusp.archive.FiledResource;
import org.intercusp.archive.ResourceIndex;
import org.intercusp.archive.ResourceTerms;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.treatment.Identifier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Exports are worked off whatever becomes of one, and are seen by who asked. */
class ExportingTest {

  private static final Clock CLOCK = Clock.systemUTC();
  private static final Clinic CLINIC = new Clinic("urn:c", "harbour-lane");
  private static final Caller PROGRAM = caller(Caller.Kind.PROGRAM);
  private static final ExportSettings SETTINGS =
      new ExportSettings(2, 20, Duration.ofHours(1), Duration.ofMillis(10), Duration.ofMinutes(10));

  @TempDir Path folder;
  private final DataSource database = Databases.H2.fresh();
  private final CurrentCaller callers = CurrentCaller.withLogin();
  private final AuditTrail trail = new AuditTrail(database, callers, CLOCK);
  private final AtomicInteger broken = new AtomicInteger();
  private Exports exports;
  private Exporting exporting;

  private static Caller caller(Caller.Kind kind) {
    return new Caller("rosa", "Rosa", kind, new Reach.Clinics(Set.of(CLINIC)), Scopes.ALL);
  }

  /** Each treatment says a resource of two types. */
  private static final class Two implements Expression {
    @Override
    public List<Expressed> of(StoredTreatment treatment) {
      List<Expressed> said = new ArrayList<>();
      for (String type : List.of("Sound", "Broken")) {
        Identifier identifier = new Identifier("urn:x", type);
        said.add(new Expressed(type, "id-" + type, identifier, false, "p1", type));
      }
      return said;
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

  @BeforeEach
  void begin() {
    TreatmentArchive archive =
        TreatmentArchive.filing(database, trail, CLOCK, new Two(), stored -> {});
    as(
        PROGRAM,
        () ->
            archive.store(
                new TreatmentKey(new Identifier("urn:c", "harbour-lane"), "T1"),
                "{}".getBytes(UTF_8)));
    exports = new Exports(database, trail, folder, SETTINGS, CLOCK);
    exporting =
        new Exporting(
            database,
            new ResourceIndex(database, trail),
            this::line,
            trail,
            folder,
            SETTINGS,
            CLOCK);
    exporting.start();
  }

  @AfterEach
  void end() {
    exporting.close();
  }

  private byte[] line(FiledResource resource) {
    if (resource.type().equals("Broken")) {
      broken.incrementAndGet();
      throw new IllegalStateException("cannot be written");
    }
    return resource.content().getBytes(UTF_8);
  }

  private <T> T as(Caller caller, Supplier<T> work) {
    return callers.as(caller, work);
  }

  private String begun(String type) {
    Wanted wanted = new Wanted(List.of(type), null, "https://here.example/fhir/$export");
    return as(PROGRAM, () -> exports.begin(wanted)).orElseThrow();
  }

  private ExportJob ended(String id) {
    Instant end = Instant.now().plusSeconds(60);
    ExportJob job = as(PROGRAM, () -> exports.find(id)).orElseThrow();
    while (job.isUnderWay()) {
      assertThat(Instant.now()).isBefore(end);
      LockSupport.parkNanos(10_000_000);
      job = as(PROGRAM, () -> exports.find(id)).orElseThrow();
    }
    return job;
  }

  @Test
  void oneThatFailsIsTriedAgainTwiceAndKeepsNoOther() {
    String bad = begun("Broken");
    String good = begun("Sound");
    assertThat(ended(good).output()).containsExactly(new ExportJob.Output("Sound", 1));
    ExportJob failed = ended(bad);
    assertThat(failed.state()).isEqualTo(ExportJob.State.FAILED);
    assertThat(failed.output()).isEmpty();
    assertThat(broken).hasValue(3);
    assertThat(failed.expiresAt()).as("goes away too").isNotNull();
    assertThat(as(PROGRAM, () -> exports.file(bad, "Broken.ndjson"))).isEmpty();
  }

  @Test
  void aPersonHasNothingOfAProgramOfTheSameName() {
    String id = begun("Sound");
    ended(id);
    Caller person = caller(Caller.Kind.PERSON);
    assertThat(as(person, () -> exports.find(id))).isEmpty();
    assertThat(as(person, () -> exports.file(id, "Sound.ndjson"))).isEmpty();
    assertThat(as(person, () -> exports.cancel(id))).isFalse();
    assertThat(as(PROGRAM, () -> exports.file(id, "Sound.ndjson"))).isPresent();
  }

  @Test
  void troubleThatLastsIsToldOnce() {
    Logger log = (Logger) LoggerFactory.getLogger(Exporting.class);
    ListAppender<ILoggingEvent> written = new ListAppender<>();
    written.start();
    log.addAppender(written);
    try {
      JdbcClient.create(database).sql("alter table bulk_export rename to elsewhere").update();
      // Some thirty rounds.
      LockSupport.parkNanos(300_000_000);
      assertThat(written.list).hasSize(1);
      JdbcClient.create(database).sql("alter table elsewhere rename to bulk_export").update();
      ended(begun("Sound"));
    } finally {
      log.detachAppender(written);
    }
  }
}
