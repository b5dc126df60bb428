package org.intercusp.archive;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import javax.sql.DataSource;
import org.intercusp.treatment.Identifier;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** The archive on both databases. */
class TreatmentArchiveTest {

  private static final String DATABASES = "org.intercusp.archive.Databases#all";
  private static final Instant NOW = Instant.parse("2026-11-02T08:30:00.123456789Z");
  private static final Clock CLOCK = Clock.fixed(NOW, ZoneOffset.UTC);
  private static final TreatmentKey T1 = key("HL-1", "T1");

  @ParameterizedTest
  @MethodSource(DATABASES)
  void storesOnceAndGivesBackTheSameBytes(Databases kind) {
    TreatmentArchive archive = new TreatmentArchive(kind.fresh(), CLOCK);
    byte[] content = json("Zoë \uD83E\uDDB7 \\u0000");

    Storing stored = archive.store(T1, content);
    Storing again = archive.store(T1, json("other"));

    StoredTreatment first = ((Storing.Stored) stored).version();
    assertThat(archive.current(T1)).contains(first);
    assertThat(archive.current(T1).orElseThrow().bytes()).isEqualTo(content);
    assertThat(first.digest()).matches("[0-9a-f]{64}");
    assertThat(first.receivedAt()).isEqualTo(Instant.parse("2026-11-02T08:30:00.123456Z"));
    assertThat(again).isEqualTo(new Storing.Exists(first));
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void keepsEveryVersionAndRefusesAStaleOne(Databases kind) {
    TreatmentArchive archive = new TreatmentArchive(kind.fresh(), CLOCK);
    archive.store(T1, json("one"));

    Storing two = archive.replace(T1, 1, json("two"));
    Storing stale = archive.replace(T1, 1, json("three"));
    Storing same = archive.replace(T1, 2, json("two"));

    StoredTreatment second = ((Storing.Stored) two).version();
    assertThat(second.version()).isEqualTo(2);
    assertThat(stale).isEqualTo(new Storing.Stale(second));
    assertThat(same).isEqualTo(new Storing.Same(second));
    assertThat(archive.history(T1)).extracting(StoredTreatment::version).containsExactly(2, 1);
    assertThat(archive.version(T1, 1).orElseThrow().bytes()).isEqualTo(json("one"));
    assertThat(archive.replace(key("HL-1", "T9"), 1, json("x"))).isEqualTo(new Storing.Absent());
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void keepsClinicsApart(Databases kind) {
    TreatmentArchive archive = new TreatmentArchive(kind.fresh(), CLOCK);
    TreatmentKey other = key("HL-2", "T1");
    archive.store(T1, json("ours"));

    assertThat(archive.current(other)).isEmpty();
    assertThat(archive.store(other, json("theirs"))).isInstanceOf(Storing.Stored.class);
    assertThat(archive.current(T1).orElseThrow().bytes()).isEqualTo(json("ours"));
    assertThat(archive.withId("T1")).containsExactly(T1, other);
    assertThat(archive.withId("T2")).isEmpty();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void ofManyWhoReplaceTheSameVersionOneWins(Databases kind) throws Exception {
    TreatmentArchive archive = new TreatmentArchive(kind.fresh(), CLOCK);
    archive.store(T1, json("one"));
    List<Callable<Storing>> writers = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      byte[] content = json("writer " + i);
      writers.add(() -> archive.replace(T1, 1, content));
    }
    ExecutorService pool = Executors.newFixedThreadPool(8);
    int won = 0;
    for (Future<Storing> end : pool.invokeAll(writers)) {
      won += end.get() instanceof Storing.Stored ? 1 : 0;
    }
    pool.shutdown();

    assertThat(won).isEqualTo(1);
    assertThat(archive.history(T1)).hasSize(2);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void takesPartInTheCallersTransaction(Databases kind) {
    DataSource database = kind.fresh();
    TreatmentArchive archive = new TreatmentArchive(database, CLOCK);
    TransactionTemplate caller = new TransactionTemplate(new JdbcTransactionManager(database));

    assertThatThrownBy(
            () ->
                caller.executeWithoutResult(
                    status -> {
                      archive.store(T1, json("one"));
                      throw new IllegalStateException("what follows failed");
                    }))
        .isInstanceOf(IllegalStateException.class);
    assertThat(archive.current(T1)).isEmpty();

    archive.store(T1, json("one"));
    TreatmentKey second = key("HL-1", "T2");
    caller.executeWithoutResult(
        status -> {
          assertThat(archive.store(T1, json("x"))).isInstanceOf(Storing.Exists.class);
          archive.store(second, json("two"));
        });
    assertThat(archive.current(second)).isPresent();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void listsTenThousandByPages(Databases kind) {
    DataSource database = kind.fresh();
    TreatmentArchive archive = new TreatmentArchive(database, CLOCK);
    new TransactionTemplate(new JdbcTransactionManager(database))
        .executeWithoutResult(
            status -> {
              for (int i = 0; i < 10_000; i++) {
                archive.store(key("HL-" + i % 3, "T" + i), json("n" + i));
              }
            });
    archive.replace(key("HL-0", "T0"), 1, json("newer"));

    List<TreatmentKey> seen = new ArrayList<>();
    long begin = System.nanoTime();
    Page page = archive.list(null, 500);
    for (Optional<Page> more = Optional.of(page); more.isPresent(); ) {
      Page shown = more.get();
      assertThat(shown.total()).isEqualTo(10_000);
      assertThat(shown.treatments()).as("no page that only says that there is none").isNotEmpty();
      shown.treatments().forEach(stored -> seen.add(stored.key()));
      more = Optional.ofNullable(shown.next()).map(next -> archive.list(next, 500));
    }
    System.out.printf(
        "%s: 10,000 treatments listed in %d ms%n", kind, (System.nanoTime() - begin) / 1_000_000);

    assertThat(seen).hasSize(10_000).doesNotHaveDuplicates();
    assertThat(page.treatments().get(0).version()).as("the newest").isEqualTo(2);
    assertThatThrownBy(() -> archive.list(null, 501)).isInstanceOf(IllegalArgumentException.class);
  }

  private static TreatmentKey key(String clinic, String treatment) {
    return new TreatmentKey(
        new Identifier("https://harbourlane.example/clinics", clinic), treatment);
  }

  private static byte[] json(String note) {
    return ("{\"note\":\"" + note + "\"}").getBytes(StandardCharsets.UTF_8);
  }
}
