package org.intercusp.worklist;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.UUID;
import javax.sql.DataSource;
import org.intercusp.archive.Databases;
import org.intercusp.archive.Storing;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.finding.Severity;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The list on both databases, on the samples, whose findings stand beside them. */
class WorklistTest {

  private static final String DATABASES = "org.intercusp.archive.Databases#all";
  private static final Path SAMPLES = Path.of("sample-bundles");
  private static final Instant NOW = Instant.parse("2026-08-24T09:00:00Z");

  private DataSource database;
  private TreatmentArchive archive;
  private Upkeep upkeep;
  private Worklist worklist;

  private void open(Databases kind) {
    database = kind.fresh();
    on(NOW, Limits.USUAL);
    archive = new TreatmentArchive(database, clock(NOW), upkeep);
  }

  /** The same database on another day or under other limits. */
  private void on(Instant now, Limits limits) {
    upkeep = new Upkeep(database, new TreatmentReader(), limits, clock(now));
    worklist = new Worklist(database, upkeep, limits, clock(now));
  }

  private static Clock clock(Instant now) {
    return Clock.fixed(now, ZoneOffset.UTC);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void entersEveryVersionAsItIsStored(Databases kind) throws IOException {
    open(kind);
    TreatmentKey key = store(sample("unsafe-bite-refused"));
    assertThat(ids(wish("", Attention.ERRORS))).containsExactly("HL-2026-005");
    Entry entry = worklist.find(wish("", null)).page().get(0).entry();
    assertThat(entry.errors()).isEqualTo(1);
    assertThat(entry.warnings()).isEqualTo(1);
    assertThat(entry.overjetStart()).isEqualByComparingTo("11");
    assertThat(entry.version()).isEqualTo(1);

    String safer =
        sample("unsafe-bite-refused")
            .replace("\"registeredReading\": 11", "\"registeredReading\": 8")
            .replace("\"overjetInBite\": 0", "\"overjetInBite\": 3");
    assertThat(archive.replace(key, 1, bytes(safer))).isInstanceOf(Storing.Stored.class);
    assertThat(ids(wish("", Attention.ERRORS))).isEmpty();
    assertThat(worklist.find(wish("", null)).page().get(0).entry().version()).isEqualTo(2);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatCannotBeEnteredIsNotStored(Databases kind) {
    database = kind.fresh();
    TreatmentArchive broken =
        new TreatmentArchive(
            database,
            clock(NOW),
            stored -> {
              throw new IllegalStateException("no");
            });
    TreatmentKey key = key("HL-1");
    assertThat(org.assertj.core.api.Assertions.catchThrowable(() -> broken.store(key, bytes("{}"))))
        .isInstanceOf(IllegalStateException.class);
    assertThat(broken.current(key)).isEmpty();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void overdueIsAMatterOfToday(Databases kind) throws IOException {
    open(kind);
    String file = sample("slow-progress-doubtful-wear");
    TreatmentKey key = store(file);
    LocalDate by = entry(key).nextBy();
    assertThat(by).isNotNull();

    on(by.plusDays(14).atStartOfDay().toInstant(ZoneOffset.UTC), Limits.USUAL);
    assertThat(ids(wish("", Attention.OVERDUE))).isEmpty();
    on(by.plusDays(15).atStartOfDay().toInstant(ZoneOffset.UTC), Limits.USUAL);
    assertThat(ids(wish("", Attention.OVERDUE))).containsExactly(key.treatment());
    assertThat(worklist.find(wish("", null)).page().get(0).overdue()).isTrue();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void aRecordWithoutADayIsJudgedAnewEveryDay(Databases kind) throws IOException {
    open(kind);
    Instant first = Instant.parse("2026-09-22T09:00:00Z");
    on(first, Limits.USUAL);
    archive = new TreatmentArchive(database, clock(first), upkeep);
    String file = sample("unsafe-bite-accepted").replaceFirst("\"asOf\"[^,]*,", "");
    TreatmentKey key = store(file);
    int before = entry(key).warnings();
    assertThat(before).isEqualTo(warnings(file, "2026-09-22"));
    assertThat(upkeep.waiting()).isZero();

    on(Instant.parse("2028-01-10T09:00:00Z"), Limits.USUAL);
    assertThat(worklist.find(wish("", null)).waiting()).isEqualTo(1);
    assertThat(upkeep.freshen(archive, 10)).isEqualTo(1);
    assertThat(upkeep.freshen(archive, 10)).isZero();
    assertThat(worklist.find(wish("", null)).waiting()).isZero();
    assertThat(entry(key).judgedOn()).hasToString("2028-01-10");
    assertThat(entry(key).warnings()).isNotEqualTo(before).isEqualTo(warnings(file, "2028-01-10"));
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void aLatePatientIsListedInTheStageOfTheLastReview(Databases kind) throws IOException {
    open(kind);
    TreatmentKey key =
        store(sample("slow-progress-doubtful-wear").replace("2026-06-22", "2027-03-22"));
    assertThat(entry(key).stage()).isEqualTo("active");
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void treatmentsOfEarlierProgramsAndOfOtherLimitsAreEnteredAnew(Databases kind)
      throws IOException {
    open(kind);
    TreatmentArchive before = new TreatmentArchive(database, clock(NOW));
    TreatmentKey key = key("HL-2026-005");
    before.store(key, bytes(sample("unsafe-bite-refused")));
    before.store(key("HL-old"), bytes("{}"));
    assertThat(worklist.find(wish("", null)).waiting()).isEqualTo(2);
    assertThat(upkeep.freshen(archive, 10)).isEqualTo(2);
    assertThat(ids(wish("", null))).containsExactlyInAnyOrder("HL-2026-005", "HL-old");
    assertThat(entry(key("HL-old")).status()).isEqualTo("unreadable");

    String edition = edition(key);
    on(NOW, Limits.named(java.util.Map.of("bite-step", new java.math.BigDecimal("9"))));
    assertThat(upkeep.freshen(archive, 10)).isEqualTo(2);
    assertThat(edition(key)).isNotEqualTo(edition);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void oneThatCannotBeEnteredAnewKeepsNoOther(Databases kind) {
    open(kind);
    TreatmentArchive before = new TreatmentArchive(database, clock(NOW));
    List<String> kept = List.of("HL-1", "HL-2", "HL-4", "HL-5");
    List.of("HL-1", "HL-2", "HL-3", "HL-4", "HL-5")
        .forEach(id -> before.store(key(id), bytes("{}")));
    JdbcClient.create(database)
        .sql("alter table worklist add constraint not_this check (treatment_id <> 'HL-3')")
        .update();

    assertThat(org.assertj.core.api.Assertions.catchThrowable(() -> upkeep.freshen(archive, 10)))
        .isInstanceOf(DataIntegrityViolationException.class);
    assertThat(ids(wish("", null))).containsExactlyInAnyOrderElementsOf(kept);
    assertThat(worklist.find(wish("", null)).waiting()).isEqualTo(1);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void searchesNamesNumbersAndIdsWithoutCaseOrAccents(Databases kind) throws IOException {
    open(kind);
    store(named("Žižková 100%", "T-1"));
    store(named("O_Brien", "T-2"));
    assertThat(ids(wish("zizkova", null))).containsExactly("T-1");
    assertThat(ids(wish("BRIEN", null))).containsExactly("T-2");
    assertThat(ids(wish("o_b", null))).containsExactly("T-2");
    assertThat(ids(wish("100%", null))).containsExactly("T-1");
    assertThat(ids(wish("o%n", null))).isEmpty();
    assertThat(ids(wish("t-2 obrien' or 1=1 --", null))).isEmpty();
    assertThat(ids(wish("T-2 o_brien", null))).containsExactly("T-2");
    assertThat(ids(wish("P-", null))).hasSize(2);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void aRefusedDeliveryNeedsAttentionUntilANewerOneIsAskedFor(Databases kind) throws IOException {
    open(kind);
    TreatmentKey key = store(sample("unsafe-bite-accepted"));
    deliver(key, 1, "refused");
    assertThat(ids(wish("", Attention.DELIVERY))).containsExactly(key.treatment());
    assertThat(worklist.find(wish("", Attention.ANY)).counts().get(Attention.DELIVERY))
        .isEqualTo(1);
    archive.replace(key, 1, bytes(sample("unsafe-bite-accepted") + " "));
    deliver(key, 2, "delivered");
    assertThat(ids(wish("", Attention.DELIVERY))).isEmpty();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void sortsEveryWayAndPages(Databases kind) throws IOException {
    open(kind);
    for (String name : List.of("Beta", "alpha", "Gamma")) {
      store(named(name, "T-" + name));
    }
    store(sample("unsafe-bite-refused"));
    assertThat(ids(new Wish("", null, Order.NAME, 0, 2))).containsExactly("T-alpha", "T-Beta");
    assertThat(ids(new Wish("", null, Order.NAME, 2, 1))).doesNotContain("T-alpha", "T-Beta");
    assertThat(ids(new Wish("", null, Order.ATTENTION, 0, 1))).containsExactly("HL-2026-005");
    for (Order order : Order.values()) {
      assertThat(ids(new Wish("", null, order, 0, 50))).hasSize(4);
    }
    assertThat(worklist.find(new Wish("t-", null, Order.NAME, 0, 1)).matches()).isEqualTo(3);
  }

  private static int warnings(String file, String day) {
    return (int)
        new Examiner()
            .examine(treatment(file), LocalDate.parse(day)).findings().stream()
                .filter(judged -> judged.finding().severity() == Severity.WARNING)
                .count();
  }

  private List<String> ids(Wish wish) {
    return worklist.find(wish).page().stream()
        .map(listed -> listed.entry().key().treatment())
        .toList();
  }

  private static Wish wish(String words, Attention attention) {
    return new Wish(words, attention, Order.ATTENTION, 0, 50);
  }

  private Entry entry(TreatmentKey key) {
    return new EntryRows(database, org.intercusp.access.CurrentCaller.withoutLogin())
        .find(key)
        .orElseThrow();
  }

  private String edition(TreatmentKey key) {
    return JdbcClient.create(database)
        .sql("select edition from worklist where treatment_id = :id")
        .param("id", key.treatment())
        .query(String.class)
        .single();
  }

  private void deliver(TreatmentKey key, int version, String state) {
    JdbcClient.create(database)
        .sql(
            "insert into delivery (id, clinic_system, clinic_value, treatment_id, version,"
                + " recipient, patient, state, reason, queued_at, changed_at, attempts, fence)"
                + " values (:uuid, :system, :clinic, :id, :version, 'hospital', :patient, :state,"
                + " '', :now, :now, 1, 1)")
        .param("uuid", UUID.randomUUID().toString())
        .param("system", key.clinic().system())
        .param("clinic", key.clinic().value())
        .param("id", key.treatment())
        .param("version", version)
        .param("patient", "0".repeat(64))
        .param("state", state)
        .param("now", NOW.atOffset(ZoneOffset.UTC))
        .update();
  }

  private TreatmentKey store(String file) {
    TreatmentKey key = TreatmentKey.of(treatment(file));
    assertThat(archive.store(key, bytes(file))).isInstanceOf(Storing.Stored.class);
    return key;
  }

  private static Treatment treatment(String file) {
    return ((ReadResult.Accepted) new TreatmentReader().read(bytes(file))).treatment();
  }

  private static TreatmentKey key(String id) throws AssertionError {
    try {
      return new TreatmentKey(treatment(sample("mixed-dentition")).clinic().identifier(), id);
    } catch (IOException e) {
      throw new AssertionError(e);
    }
  }

  private static String named(String family, String id) throws IOException {
    return sample("mixed-dentition")
        .replaceFirst("\"id\": \"[^\"]+\"", "\"id\": \"" + id + "\"")
        .replaceFirst("(?s)(\"patient\".*?\"family\"\\s*:\\s*)\"[^\"]+\"", "$1\"" + family + "\"");
  }

  private static String sample(String name) throws IOException {
    return Files.readString(SAMPLES.resolve(name + ".treatment.json"));
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
