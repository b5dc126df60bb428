package org.intercusp.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import javax.sql.DataSource;
import org.intercusp.archive.ResourceQuery.Token;
import org.intercusp.treatment.Identifier;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The index of resources on both databases. The treatments here are lines {@code id=content}, each
 * a resource; an id that begins with {@code s} is shared.
 */
class ResourceFilingTest {

  private static final String DATABASES = "org.intercusp.archive.Databases#all";
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-02T08:30:00Z"), ZoneOffset.UTC);

  /** Says the lines of a treatment. */
  private static final class Lines implements Expression {
    @Override
    public List<Expressed> of(StoredTreatment treatment) {
      if (treatment.content().equals("cannot be said")) {
        throw new IllegalStateException("cannot be said");
      }
      if (treatment.content().equals("cannot be meant")) {
        throw new IllegalArgumentException("cannot be meant");
      }
      String clinic = treatment.key().clinic().value();
      return Arrays.stream(treatment.content().split("\n"))
          .filter(line -> line.contains("="))
          .map(
              line -> {
                String name = line.substring(0, line.indexOf('='));
                boolean shared = name.startsWith("s");
                String own = shared ? name : treatment.key().treatment() + name;
                Identifier identifier = new Identifier("urn:x", own);
                return new Expressed("Thing", clinic + "-" + own, identifier, shared, "p1", line);
              })
          .toList();
    }

    @Override
    public String withdrawn(String content) {
      return "withdrawn " + content;
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

  @ParameterizedTest
  @MethodSource(DATABASES)
  void aVersionIsMadeByAChangeAlone(Databases kind) {
    DataSource database = kind.fresh();
    TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, new Lines());
    ResourceIndex index = new ResourceIndex(database, CLOCK);
    archive.store(key("A", "1"), text("a=1\nb=1\ns=1"));
    archive.replace(key("A", "1"), 1, text("a=1\nb=2\ns=1"));
    archive.replace(key("A", "1"), 2, text("a=1\ns=1"));

    assertThat(index.current("Thing", "A-1a").orElseThrow().version()).isEqualTo(1);
    assertThat(
            index.history(new ResourceIndex.Past("Thing", "A-1b", null, index.moment()), null, 9))
        .extracting(FiledResource::content)
        .containsExactly("withdrawn b=2", "b=2", "b=1");
    assertThat(index.current("Thing", "A-1b").orElseThrow().withdrawn()).isTrue();
    assertThat(index.version("Thing", "A-1b", 1).orElseThrow().content()).isEqualTo("b=1");
    archive.replace(key("A", "1"), 3, text("a=1\nb=2\n"));
    assertThat(index.current("Thing", "A-1b").orElseThrow().content()).isEqualTo("b=2");
    assertThat(index.current("Thing", "A-s").orElseThrow().withdrawn())
        .as("what others may say is not taken back")
        .isFalse();
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void theSharedFollowWhoChangedTheirMind(Databases kind) {
    DataSource database = kind.fresh();
    TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, new Lines());
    ResourceIndex index = new ResourceIndex(database, CLOCK);
    archive.store(key("A", "1"), text("s=old"));
    archive.store(key("A", "2"), text("s=new"));
    archive.replace(key("A", "1"), 1, text("s=old\na=1"));
    assertThat(index.current("Thing", "A-s").orElseThrow().content()).isEqualTo("s=new");
    archive.store(key("B", "1"), text("s=other clinic"));
    assertThat(index.current("Thing", "A-s").orElseThrow().version()).isEqualTo(2);
    assertThat(index.current("Thing", "B-s").orElseThrow().version()).isEqualTo(1);
    assertThat(index.treatments("p1")).hasSize(3);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatWasStoredBeforeIsFiledLater(Databases kind) {
    DataSource database = kind.fresh();
    TreatmentArchive before = new TreatmentArchive(database, CLOCK);
    before.store(key("A", "1"), text("a=1"));
    before.replace(key("A", "1"), 1, text("a=2"));
    before.store(key("A", "2"), text("a=1"));
    ResourceIndex index = new ResourceIndex(database, CLOCK);
    assertThat(index.moment()).isZero();
    TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, new Lines());
    archive.replace(key("A", "1"), 2, text("a=3"));
    assertThat(index.current("Thing", "A-1a").orElseThrow().version()).isEqualTo(3);
    assertThat(archive.fileAll()).isZero();
    assertThat(archive.fileAll()).isZero();
    assertThat(index.current("Thing", "A-2a").orElseThrow().version()).isEqualTo(1);
  }

  /** FHIR R4, 3.1.0.9: versions created at or after the given instant. */
  @ParameterizedTest
  @MethodSource(DATABASES)
  void aHistorySinceAMomentHasWhatCameInIt(Databases kind) {
    DataSource database = kind.fresh();
    TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, new Lines());
    archive.store(key("A", "1"), text("a=1"));
    ResourceIndex index = new ResourceIndex(database, CLOCK);
    Instant then = index.current("Thing", "A-1a").orElseThrow().updatedAt();
    for (int late = 0; late < 2; late++) {
      Instant since = then.plus(late, ChronoUnit.MICROS);
      ResourceIndex.Past past = new ResourceIndex.Past("Thing", null, since, index.moment());
      assertThat(index.history(past, null, 9)).hasSize(1 - late);
      assertThat(index.count(past)).isEqualTo(1 - late);
    }
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatCannotBeFiledIsCountedAndKeepsNoOther(Databases kind) {
    DataSource database = kind.fresh();
    TreatmentArchive before = new TreatmentArchive(database, CLOCK);
    before.store(key("A", "1"), text("cannot be said"));
    before.store(key("A", "11"), text("cannot be meant"));
    before.store(key("A", "2"), text("a=1"));
    TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, new Lines());
    assertThat(archive.fileAll()).isEqualTo(2);
    assertThat(archive.fileAll()).isEqualTo(2);
    ResourceIndex index = new ResourceIndex(database, CLOCK);
    assertThat(index.current("Thing", "A-2a").orElseThrow().version()).isEqualTo(1);
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void aMomentStaysAsItWas(Databases kind) {
    DataSource database = kind.fresh();
    TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, new Lines());
    ResourceIndex index = new ResourceIndex(database, CLOCK);
    archive.store(key("A", "1"), text("a=1\nb=1\nc=1"));
    ResourceQuery all =
        new ResourceQuery(
            "Thing", List.of(), List.of(), List.of(List.of("p1")), List.of(), List.of(), List.of());
    long moment = index.moment();
    List<FiledResource> first = index.search(all, moment, null, 2);
    archive.replace(key("A", "1"), 1, text("a=2\nb=2\nc=2\nd=1"));
    List<FiledResource> rest = index.search(all, moment, first.get(1).id(), 2);
    assertThat(rest).extracting(FiledResource::content).containsExactly("c=1");
    assertThat(index.count(all, moment)).isEqualTo(3);
    assertThat(index.count(all, index.moment())).isEqualTo(4);
    ResourceQuery byValue =
        ResourceQuery.identified(
            "Thing", List.of(new Token("urn:x", "1a"), new Token("urn:y", "1b")));
    assertThat(index.search(byValue, index.moment(), null, 9))
        .extracting(FiledResource::id)
        .containsExactly("A-1a");
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void manyAtOnceInOneClinicAllGetIn(Databases kind) throws Exception {
    DataSource database = kind.fresh();
    TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, new Lines());
    ExecutorService pool = Executors.newFixedThreadPool(8);
    try {
      List<Future<Storing>> all = new ArrayList<>();
      for (int i = 0; i < 40; i++) {
        TreatmentKey key = key("A", "t" + i);
        byte[] text = text("a=" + i + "\ns=" + i);
        all.add(pool.submit(() -> archive.store(key, text)));
      }
      for (Future<Storing> one : all) {
        assertThat(one.get()).isInstanceOf(Storing.Stored.class);
      }
    } finally {
      pool.shutdown();
    }
    ResourceIndex index = new ResourceIndex(database, CLOCK);
    assertThat(index.current("Thing", "A-s").orElseThrow().version()).isEqualTo(40);
    assertThat(index.moment()).isGreaterThanOrEqualTo(40);
  }

  private static TreatmentKey key(String clinic, String treatment) {
    return new TreatmentKey(new Identifier("urn:c", clinic), treatment);
  }

  private static byte[] text(String lines) {
    return lines.getBytes(StandardCharsets.UTF_8);
  }
}
