package org.intercusp.web.pages.entry;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.intercusp.finding.Figure;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentSchema;
import org.intercusp.treatment.TreatmentWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** From what is typed to the record: numbers, faults at fields, order, rows, stand-ins. */
class EntryTest {

  private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
  private static final Treatment STORED = stored();

  private final ObjectNode file =
      Placed.tree(new String(new TreatmentWriter().write(STORED), StandardCharsets.UTF_8));
  private final Sheet bite = BiteSheet.of(TODAY);
  private final Sheet review = ReviewSheet.of(STORED, TODAY);

  @Test
  void everyMemberOfTheFileHasAFieldAndNoFieldIsInvented() {
    JsonNode definitions = new JsonMapper().readTree(TreatmentSchema.text()).path("$defs");
    assertThat(bite.fields().map(Field::path).collect(Collectors.toSet()))
        .isEqualTo(names(definitions.path("bite")));
    Set<String> members =
        review.fields().map(field -> field.path().split("/")[0]).collect(Collectors.toSet());
    review.groups().forEach(group -> members.add(group.list()));
    assertThat(members).isEqualTo(names(definitions.path("review")));
    for (Sheet.Group group : review.groups()) {
      assertThat(group.fields().stream().map(Field::path).collect(Collectors.toSet()))
          .isEqualTo(names(definitions.path(group.shape())));
    }
    for (Sheet sheet : List.of(bite, review)) {
      Set<String> required = new HashSet<>();
      definitions.path(sheet.shape()).path("required").forEach(n -> required.add(n.asString()));
      assertThat(
              sheet
                  .fields()
                  .filter(Field::needed)
                  .map(field -> field.path().split("/")[0])
                  .collect(Collectors.toSet()))
          .isEqualTo(required);
    }
  }

  private static Set<String> names(JsonNode definition) {
    return Set.copyOf(definition.path("properties").propertyNames());
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = ';',
      value = {"2.5;2.5", "2,5;2.5", "-1;-1", "\u22121,25;-1.25", "+3;3", "9.0;9.0", " 4 ;4"})
  void aNumberHasOneDecimalMark(String typed, String number) {
    EntryText text = EntryText.of(bite, typed(Map.of("overjetHabitual", typed)));
    assertThat(text.faults()).isEmpty();
    assertThat(text.entry().get("overjetHabitual").decimalValue()).hasToString(number);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"1,234", "1.234", "1.2.3", "1,2,3", "1 2", "2.", ",5", "1e3", "nine", "0x1"})
  void anythingElseIsRefusedAtItsFieldAndKept(String typed) {
    Map<String, String> whole = new HashMap<>(wholeBite());
    whole.put("overjetHabitual", typed);
    Trial trial = Trial.of(file, bite, EntryText.of(bite, typed(whole)));
    assertThat(trial.treatment()).isNull();
    assertThat(trial.faults()).containsOnlyKeys("overjetHabitual");
    assertThat(trial.faults().get("overjetHabitual")).contains(typed).contains("2,5");
  }

  @Test
  void aBiteIsPutInAndNothingElseChanges() {
    Trial trial = Trial.of(file, bite, EntryText.of(bite, typed(wholeBite())));
    assertThat(trial.faults()).isEmpty();
    Treatment after = trial.treatment();
    assertThat(after.bites()).hasSize(2).startsWith(STORED.bites().get(0));
    assertThat(after.asOf()).isEqualTo(LocalDate.of(2026, 8, 3));
    ObjectNode tree =
        Placed.tree(new String(new TreatmentWriter().write(after), StandardCharsets.UTF_8));
    ((ArrayNode) tree.get("bites")).remove(1);
    tree.put("asOf", "2026-06-22");
    assertThat(tree).hasToString(file.toString());
  }

  @Test
  void aReviewOfAnEarlierDayStandsBeforeTheLaterOnes() {
    Map<String, String> early = new HashMap<>(wholeReview());
    early.put("date", STORED.reviews().get(0).date().plusDays(1).toString());
    Treatment after = Trial.of(file, review, EntryText.of(review, typed(early))).treatment();
    assertThat(after.reviews().get(1).id()).isEqualTo("review-9");
    assertThat(after.asOf()).isEqualTo(STORED.asOf());
  }

  @Test
  void faultsStandAtTheirFields() {
    Map<String, String> typed = new HashMap<>(wholeReview());
    typed.put("id", "review-1");
    typed.put("overjet", "30");
    typed.put("molarRelation/left", "");
    typed.put("posteriorOpenBite/right", "1");
    typed.put("wearReported", "25");
    typed.put("date", "2026-02-30");
    typed.put("trimmed/0/tooth", "19");
    typed.put("screwTurns", "2.5");
    Trial trial = Trial.of(file, review, EntryText.of(review, typed(typed)));
    assertThat(trial.faults().keySet())
        .containsExactlyInAnyOrder(
            "id",
            "overjet",
            "molarRelation/left",
            "posteriorOpenBite/left",
            "wearReported",
            "date",
            "screwTurns",
            "trimmed/0/arch",
            "trimmed/0/side",
            "trimmed/0/tooth",
            "trimmed/0/face",
            "trimmed/0/amount");
    assertThat(trial.faults().get("overjet")).contains("-20 to 20 mm");
  }

  @Test
  void askedAndNoneIsNotTheSameAsNotAsked() {
    Map<String, String> typed = new HashMap<>(wholeReview());
    typed.put("jointSigns", Field.NONE);
    Treatment after = Trial.of(file, review, EntryText.of(review, typed(typed))).treatment();
    assertThat(after.reviews().get(after.reviews().size() - 1).jointSigns()).isEmpty();
    typed.remove("jointSigns");
    after = Trial.of(file, review, EntryText.of(review, typed(typed))).treatment();
    assertThat(after.reviews().get(after.reviews().size() - 1).jointSigns()).isNull();
    Typed both =
        Typed.of(Map.of("jointSigns", List.of("pain", Field.NONE), "id", List.of("r")), review);
    assertThat(EntryText.of(review, both).faults()).containsOnlyKeys("jointSigns");
  }

  @Test
  void rowsCloseUpAndEmptyOnesAreLeftOut() {
    Map<String, List<String>> given = new TreeMap<>();
    given.put("breakages/0/part", List.of("clasp"));
    given.put("breakages/1/part", List.of(""));
    given.put("breakages/4/part", List.of("bow"));
    Typed typed = Typed.of(given, review);
    assertThat(typed.rows("breakages")).isEqualTo(3);
    Typed filled = typed.filled(review);
    assertThat(filled.rows("breakages")).isEqualTo(2);
    assertThat(filled.text("breakages/1/part")).isEqualTo("bow");
    Sheet.Group group =
        review.groups().stream()
            .filter(g -> g.list().equals("breakages"))
            .findFirst()
            .orElseThrow();
    assertThat(filled.withoutRow(group, 0).text("breakages/0/part")).isEqualTo("bow");
    assertThat(filled.withRow(group).rows("breakages")).isEqualTo(3);
  }

  @ParameterizedTest
  @CsvSource({"bite-1, bite-2", "B9, B10", "last, b-1", "x-2026-08, x-2026-09", "R099, R100"})
  void theNextIdFollowsTheLast(String last, String next) {
    assertThat(Entries.nextId(List.of(last), "b-")).isEqualTo(next);
    assertThat(Entries.nextId(List.of("b-2", "b-1"), "b-")).isEqualTo("b-3");
  }

  /** Whatever stands in for a missing member, a figure that is shown comes out the same. */
  @Test
  void noFigureComesFromAStandIn() {
    for (String member : wholeBite().keySet()) {
      Set<Figure> one = shown(member, Map.of());
      Set<Figure> other =
          shown(
              member, Map.of(member, member.equals("recordedOn") ? "2036-01-01" : otherOf(member)));
      assertThat(other).as(member).isEqualTo(one);
    }
    assertThat(shown("overjetHabitual", Map.of()).stream().map(Figure::name))
        .contains("path", "share-of-path", "height-in-bite");
  }

  private static String otherOf(String member) {
    return member.endsWith("Height") ? "12.5" : member.equals("id") ? "another" : "1.5";
  }

  private Set<Figure> shown(String missing, Map<String, String> standIn) {
    Map<String, String> typed = new HashMap<>(wholeBite());
    typed.remove(missing);
    typed.putAll(standIn);
    EntryText text = EntryText.of(bite, typed(typed));
    Trial trial = Trial.of(file, bite, text);
    Treatment after =
        trial.treatment() != null
            ? trial.treatment()
            : trial.completed(file, bite, text).treatment();
    if (after == null) {
      return Set.of();
    }
    String id = after.bites().get(1).id();
    return new Examiner()
        .examine(after, TODAY).figures().stream()
            .filter(figure -> figure.subject().equals(id) && !missing.equals("id"))
            .filter(figure -> FigureNeeds.freeOf(Set.of(missing), figure.name()))
            .collect(Collectors.toSet());
  }

  private static Typed typed(Map<String, String> values) {
    return Typed.proposed(values);
  }

  private static Map<String, String> wholeBite() {
    return Map.ofEntries(
        Map.entry("id", "bite-2"),
        Map.entry("recordedOn", "2026-08-03"),
        Map.entry("retrudedReading", "-0,5"),
        Map.entry("habitualReading", "0"),
        Map.entry("registeredReading", "8.5"),
        Map.entry("maximumReading", "13"),
        Map.entry("overjetHabitual", "9.0"),
        Map.entry("overbiteHabitual", "4"),
        Map.entry("overjetInBite", "0.5"),
        Map.entry("incisalClearance", "2"),
        Map.entry("upperIncisorHeight", "9.5"),
        Map.entry("lowerIncisorHeight", "8"));
  }

  private static Map<String, String> wholeReview() {
    return Map.of(
        "id", "review-9",
        "date", "2026-08-03",
        "stageId", "active",
        "seenBy", "Okonjo",
        "kind", "planned",
        "overjet", "6.5",
        "overbite", "3",
        "molarRelation/right", "3",
        "molarRelation/left", "3");
  }

  private static Treatment stored() {
    try {
      Path sample = Path.of("sample-bundles/slow-progress-doubtful-wear.treatment.json");
      return ((ReadResult.Accepted) new TreatmentReader().read(Files.readAllBytes(sample)))
          .treatment();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
