package org.intercusp.archive;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.intercusp.archive.ResourceQuery.Around;
import org.intercusp.archive.ResourceQuery.Coded;
import org.intercusp.archive.ResourceQuery.Relation;
import org.intercusp.archive.ResourceQuery.Token;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Searches by codes and times on both databases. The treatments here are lines {@code
 * id=word,word}, each a resource; a word {@code name:system|code} is a code, {@code name@begin/end}
 * a time.
 */
class ResourceTermsTest {

  private static final String DATABASES = "org.intercusp.archive.Databases#all";
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-02T08:30:00Z"), ZoneOffset.UTC);

  /** Says the lines, and finds the words in them. */
  private static final class Words implements Expression {

    private int form = 1;
    private int asked;

    @Override
    public List<Expressed> of(StoredTreatment treatment) {
      return Arrays.stream(treatment.content().split("\n"))
          .map(
              line -> {
                String id = line.substring(0, line.indexOf('='));
                return new Expressed("Thing", id, new Identifier("urn:x", id), false, "p1", line);
              })
          .toList();
    }

    @Override
    public String withdrawn(String content) {
      return content.replaceAll("=.*", "=status:|gone");
    }

    @Override
    public ResourceTerms terms(String content) {
      asked++;
      if (content.contains("unreadable") && form > 1) {
        throw new IllegalStateException("unreadable");
      }
      List<ResourceTerms.Code> codes = new ArrayList<>();
      Instant begins = null;
      Instant ends = null;
      for (String word : content.substring(content.indexOf('=') + 1).split(",")) {
        if (word.contains("@")) {
          String[] parts = word.split("[@/]", 3);
          begins = instant(parts[1]);
          ends = instant(parts[2]);
        } else if (word.contains(":")) {
          String[] parts = word.split("[:|]", 3);
          codes.add(new ResourceTerms.Code(parts[0], parts[1], parts[2] + (form > 1 ? form : "")));
        }
      }
      return new ResourceTerms(codes, begins, ends);
    }

    @Override
    public int termsForm() {
      return form;
    }
  }

  private static @Nullable Instant instant(String day) {
    return day.isEmpty() ? null : day(day);
  }

  static Stream<Arguments> tokens() {
    return Databases.all()
        .flatMap(
            kind ->
                Stream.of(
                    Arguments.of(kind, null, "x", List.of("a", "b", "c")),
                    Arguments.of(kind, "s", "x", List.of("a", "b")),
                    Arguments.of(kind, "", "x", List.of("c")),
                    Arguments.of(kind, "s", null, List.of("a", "b", "d")),
                    Arguments.of(kind, "t", "x", List.of()),
                    Arguments.of(kind, null, "z", List.of())));
  }

  @ParameterizedTest
  @MethodSource("tokens")
  void codesAreFoundByCodeAndSystem(
      Databases kind, @Nullable String system, @Nullable String code, List<String> found) {
    DataSource database = kind.fresh();
    TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, new Words());
    ResourceIndex index = new ResourceIndex(database, CLOCK);
    archive.store(
        key("1"), text("a=code:s|x,code:s|y\nb=code:s|x\nc=code:|x\nd=code:s|w,kind:t|x\ne=none"));
    List<Token> token = List.of(new Token(system, code));
    assertThat(found(index, new Coded("code", false, token))).isEqualTo(found);
    assertThat(found(index, new Coded("code", true, token)))
        .isEqualTo(Stream.of("a", "b", "c", "d", "e").filter(id -> !found.contains(id)).toList());
    assertThat(found(index, new Coded("code", false, List.of(new Token("s", "w"), token.get(0)))))
        .containsAll(found)
        .contains("d");
    assertThat(found(index, new Coded("code", false, token), new Coded("kind", false, token)))
        .isEmpty();
  }

  /** Each relation to the 10th and 11th of June (FHIR R4, 3.1.1.4.5). */
  @ParameterizedTest
  @CsvSource({
    "WITHIN,           inside same",
    "NOT_WITHIN,       after before ending old open over starting",
    "REACHING_BEYOND,  after open over starting",
    "REACHING_BEFORE,  before ending old over",
    "WITHIN_OR_BEYOND, after inside open over same starting",
    "WITHIN_OR_BEFORE, before ending inside old over same",
    "AFTER,            after",
    "BEFORE,           before old",
    "OVERLAPPING,      ending inside open over same starting"
  })
  void timesAreFoundByHowTheyStand(Relation relation, String found) {
    for (Databases kind : Databases.values()) {
      DataSource database = kind.fresh();
      TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, new Words());
      archive.store(
          key("1"),
          text(
              """
              before=@2026-06-08/2026-06-10
              ending=@2026-06-09/2026-06-11
              same=@2026-06-10/2026-06-12
              inside=@2026-06-11/2026-06-12
              over=@2026-06-09/2026-06-13
              starting=@2026-06-11/2026-06-13
              after=@2026-06-12/2026-06-13
              open=@2026-06-10/
              old=@/2026-06-10
              none=code:s|x
              other=time:|2026-06-11"""));
      Around around = new Around(relation, day("2026-06-10"), day("2026-06-12"));
      ResourceQuery query = query(List.of(), List.of(List.of(around)));
      ResourceIndex index = new ResourceIndex(database, CLOCK);
      assertThat(ids(index, query)).as(kind.name()).isEqualTo(List.of(found.split(" ")));
    }
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void eachVersionHasItsOwn(Databases kind) {
    DataSource database = kind.fresh();
    TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, new Words());
    ResourceIndex index = new ResourceIndex(database, CLOCK);
    archive.store(key("1"), text("a=code:s|x\nb=code:s|x"));
    long before = index.moment();
    archive.replace(key("1"), 1, text("a=code:s|y"));
    Coded old = new Coded("code", false, List.of(new Token("s", "x")));
    assertThat(found(index, old)).isEmpty();
    assertThat(index.count(query(List.of(old), List.of()), before)).isEqualTo(2);
    Coded gone = new Coded("status", false, List.of(new Token(null, "gone")));
    assertThat(found(index, gone)).as("one that went away").containsExactly("b");
  }

  @ParameterizedTest
  @MethodSource(DATABASES)
  void whatStandsInAnOlderFormIsRenewed(Databases kind) {
    DataSource database = kind.fresh();
    Words words = new Words();
    TreatmentArchive archive = TreatmentArchive.filing(database, CLOCK, words);
    ResourceIndex index = new ResourceIndex(database, CLOCK);
    StringBuilder many = new StringBuilder("a=code:s|x,@2026-06-10/2026-06-11");
    for (int i = 0; i < 450; i++) {
      many.append("\nm").append(i).append("=code:s|m");
    }
    archive.store(key("1"), text(many + "\nu=code:s|x,unreadable"));
    // As a program without searches by code left them.
    JdbcClient jdbc = JdbcClient.create(database);
    jdbc.sql(
            "update resource_version set terms_form = 0, codes = null, begins = null, ends = null"
                + " where logical_id = 'a'")
        .update();
    assertThat(found(index, new Coded("code", true, List.of(new Token("s", "m")))))
        .as("not yet made findable")
        .containsExactly("a", "u");
    assertThat(archive.fileAll()).isZero();
    Coded x = new Coded("code", false, List.of(new Token("s", "x")));
    assertThat(found(index, x)).containsExactly("a", "u");
    Around day = new Around(Relation.WITHIN, day("2026-06-10"), day("2026-06-11"));
    assertThat(ids(index, query(List.of(), List.of(List.of(day))))).containsExactly("a");

    words.asked = 0;
    assertThat(archive.fileAll()).isZero();
    assertThat(words.asked).as("what is up to date is left as it is").isZero();

    words.form = 2;
    assertThat(archive.fileAll()).as("one is not understood").isEqualTo(1);
    assertThat(found(index, new Coded("code", false, List.of(new Token("s", "x2")))))
        .containsExactly("a");
    assertThat(found(index, x)).as("which is found as before").containsExactly("u");
    Coded renewed = new Coded("code", false, List.of(new Token("s", "m2")));
    assertThat(index.count(query(List.of(renewed), List.of()), index.moment())).isEqualTo(450);
  }

  private static Instant day(String day) {
    return Instant.parse(day + "T00:00:00Z");
  }

  private static ResourceQuery query(List<Coded> coded, List<List<Around>> timed) {
    return new ResourceQuery("Thing", List.of(), List.of(), List.of(), List.of(), coded, timed);
  }

  private static List<String> found(ResourceIndex index, Coded... coded) {
    return ids(index, query(List.of(coded), List.of()));
  }

  private static List<String> ids(ResourceIndex index, ResourceQuery query) {
    List<String> ids =
        index.search(query, index.moment(), null, 999).stream().map(FiledResource::id).toList();
    assertThat(index.count(query, index.moment())).isEqualTo(ids.size());
    return ids;
  }

  private static TreatmentKey key(String treatment) {
    return new TreatmentKey(new Identifier("urn:clinics", "A"), treatment);
  }

  private static byte[] text(String lines) {
    return lines.getBytes(StandardCharsets.UTF_8);
  }
}
