package org.intercusp.treatment;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Error;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.ReadResult.Refused;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The reader and the published schema accept the same files, by the word of a general JSON Schema
 * validator. Apart stands what no JSON Schema can say: references, ids that stand twice, members
 * that stand twice, and a total outside its own least and most.
 */
@Tag("steady")
class TreatmentSchemaTest {

  private static final int CHANGES = 6_000;

  private static final String PLACE = "/schema/treatment-1.json";
  private static final JsonMapper JSON = PublishedSchema.JSON;

  private static final Set<String> BEYOND_A_SCHEMA = Set.of("unknown-reference", "duplicate-id");

  private final TreatmentReader reader = new TreatmentReader();
  private final Schema schema = PublishedSchema.of(PLACE);

  private List<Finding> faultsASchemaCanTell(byte[] file) {
    if (!(reader.read(file) instanceof Refused refused)) {
      return List.of();
    }
    return refused.faults().stream()
        .filter(fault -> !BEYOND_A_SCHEMA.contains(fault.code()))
        .filter(fault -> !fault.pointer().text().endsWith("/total") || !isScore(fault))
        .toList();
  }

  private static boolean isScore(Finding fault) {
    return fault.code().equals("score-range");
  }

  @Test
  void thePublishedSchemaIsTheOneTheReaderFollows() {
    assertThat(PublishedSchema.text(PLACE))
        .as("write it anew on purpose with WriteTreatmentSchema")
        .isEqualTo(TreatmentSchema.text());
  }

  @Test
  void theSchemaIsItselfInOrder() {
    Schema meta =
        SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
            .getSchema(
                com.networknt.schema.SchemaLocation.of(
                    "https://json-schema.org/draft/2020-12/schema"));
    assertThat(meta.validate(JSON.readTree(TreatmentSchema.text()))).isEmpty();
  }

  @Test
  void readerAndSchemaAgreeOnThousandsOfChangedFiles() {
    JsonNode whole = JSON.readTree(Files.whole());
    assertThat(schema.validate(whole)).isEmpty();
    Map<String, Integer> codes = new HashMap<>();
    int accepted = 0;
    for (int seed = 0; seed < CHANGES; seed++) {
      JsonNode changed = new Mutator(seed).change(whole);
      byte[] bytes = JSON.writeValueAsBytes(changed);
      List<Finding> faults = faultsASchemaCanTell(bytes);
      List<Error> errors = schema.validate(JSON.readTree(bytes));
      assertThat(faults.isEmpty())
          .as("seed %d: reader says %s, schema says %s", seed, faults, errors)
          .isEqualTo(errors.isEmpty());
      faults.forEach(fault -> codes.merge(fault.code(), 1, Integer::sum));
      accepted += faults.isEmpty() ? 1 : 0;
    }
    // The changes must try both verdicts and every kind of fault.
    assertThat(accepted).isBetween(CHANGES / 10, CHANGES * 9 / 10);
    assertThat(codes)
        .containsKeys(
            "tooth-code",
            "score-range",
            "unknown-member",
            "wrong-type",
            "out-of-range",
            "not-a-date",
            "missing-member");
    assertThat(codes.values()).allMatch(count -> count >= 20);
  }

  @Test
  void theDatesOfTheSchemaAreTheDatesOfTheCalendar() {
    String pattern = JSON.readTree(TreatmentSchema.text()).at("/$defs/date/pattern").stringValue();
    java.util.regex.Pattern dates = java.util.regex.Pattern.compile(pattern);
    List<String> wrong = new ArrayList<>();
    for (int year = 1899; year <= 2200; year++) {
      for (int month = 0; month <= 13; month++) {
        for (int day = 0; day <= 32; day++) {
          String text = "%04d-%02d-%02d".formatted(year, month, day);
          boolean expected = year >= 1900 && year <= 2199 && exists(year, month, day);
          if (dates.matcher(text).matches() != expected) {
            wrong.add(text);
          }
        }
      }
    }
    assertThat(wrong).isEmpty();
  }

  private static boolean exists(int year, int month, int day) {
    try {
      return LocalDate.of(year, month, day).getDayOfMonth() == day;
    } catch (DateTimeException e) {
      return false;
    }
  }
}
