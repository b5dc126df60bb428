package org.intercusp.scenario;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SchemaRegistryConfig;
import com.networknt.schema.SpecificationVersion;
import java.time.LocalDate;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentSchema;
import org.intercusp.treatment.TreatmentWriter;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;

class TreatmentGeneratorTest {

  private static final List<Treatment> MANY =
      new TreatmentGenerator().treatments(2000, 20261030).toList();

  private final TreatmentWriter writer = new TreatmentWriter();
  private final TreatmentReader reader = new TreatmentReader();

  private String text(Stream<Treatment> treatments) {
    StringBuilder text = new StringBuilder();
    treatments.forEach(each -> text.append(new String(writer.write(each), UTF_8)).append('\n'));
    return text.toString();
  }

  @Test
  void theSameSeedGivesTheSameBytes() {
    TreatmentGenerator generator = new TreatmentGenerator();
    String hundred = text(generator.treatments(100, 7));
    assertThat(text(generator.treatments(100, 7))).isEqualTo(hundred);
    assertThat(hundred).startsWith(text(generator.treatments(10, 7)));
    assertThat(text(generator.treatments(100, 8))).isNotEqualTo(hundred);
  }

  @Test
  void theReaderTakesThemAndGivesThemBack() {
    for (Treatment treatment : MANY) {
      byte[] bytes = writer.write(treatment);
      ReadResult result = reader.read(bytes);
      assertThat(result)
          .as("%s", new String(bytes, UTF_8))
          .isEqualTo(new ReadResult.Accepted(treatment));
    }
  }

  @Test
  void theSchemaAcceptsThem() {
    Schema schema =
        SchemaRegistry.withDefaultDialect(
                SpecificationVersion.DRAFT_2020_12,
                registry ->
                    registry.schemaRegistryConfig(
                        SchemaRegistryConfig.builder().losslessNarrowing(true).build()))
            .getSchema(TreatmentSchema.text());
    JsonMapper json =
        JsonMapper.builder().enable(DeserializationFeature.USE_BIG_DECIMAL_FOR_FLOATS).build();
    for (Treatment treatment : MANY) {
      assertThat(schema.validate(json.readTree(writer.write(treatment)))).isEmpty();
    }
  }

  @Test
  void identifiersAreTheirOwn() {
    assertThat(MANY).extracting(Treatment::id).doesNotHaveDuplicates();
    assertThat(MANY).extracting(t -> t.patient().identifier()).doesNotHaveDuplicates();
    assertThat(MANY)
        .allMatch(
            t -> t.patient().identifier().system().startsWith("https://harbour-lane.example/"));
  }

  @Test
  void nothingHappensOutOfOrder() {
    for (Treatment treatment : MANY) {
      LocalDate asOf = treatment.asOf();
      LocalDate fitted =
          treatment.appliances().stream()
              .map(Appliance::fittedOn)
              .filter(on -> on != null)
              .min(LocalDate::compareTo)
              .orElse(LocalDate.MAX);
      LocalDate last = fitted;
      for (Review review : treatment.reviews()) {
        assertThat(review.date()).as(treatment.id()).isAfterOrEqualTo(last).isBeforeOrEqualTo(asOf);
        last = review.date();
      }
      assertThat(treatment.patient().birthDate()).isBefore(treatment.diagnosis().assessedOn());
      treatment.bites().forEach(bite -> assertThat(bite.recordedOn()).isBeforeOrEqualTo(asOf));
      for (Appliance appliance : treatment.appliances()) {
        assertThat(appliance.orderedOn()).isBeforeOrEqualTo(asOf);
        if (appliance.fittedOn() != null) {
          assertThat(appliance.fittedOn()).isBetween(appliance.orderedOn(), asOf);
        }
      }
      treatment.outcomes().forEach(o -> assertThat(o.date()).isBeforeOrEqualTo(asOf));
      treatment.films().forEach(f -> assertThat(f.takenOn()).isBeforeOrEqualTo(asOf));
    }
  }

  private static long count(Predicate<Treatment> condition) {
    return MANY.stream().filter(condition).count();
  }

  @Test
  void theMixIsThatOfAClinic() {
    assertThat(count(t -> t.bites().isEmpty())).isBetween(10L, 100L);
    assertThat(count(t -> t.bites().size() > 1)).isBetween(100L, 1000L);
    assertThat(count(t -> t.films().size() > 1)).isBetween(300L, 1200L);
    assertThat(count(t -> t.models().isEmpty())).isBetween(200L, 700L);
    assertThat(count(t -> status(t, Completion.Status.COMPLETED))).isBetween(200L, 1200L);
    assertThat(count(t -> status(t, Completion.Status.PATIENT_STOPPED))).isBetween(50L, 400L);
    assertThat(count(t -> !t.acceptances().isEmpty())).isBetween(10L, 200L);
    assertThat(count(t -> t.patient().consent() == null)).isBetween(40L, 200L);
    assertThat(count(t -> t.reviews().stream().anyMatch(r -> !r.adverseEvents().isEmpty())))
        .isBetween(150L, 900L);
    double overjet =
        MANY.stream().mapToDouble(t -> t.diagnosis().overjet().asDouble()).average().orElseThrow();
    assertThat(overjet).isBetween(8.0, 9.5);
    assertThat(
            count(t -> t.diagnosis().teethPresent().stream().anyMatch(tooth -> tooth.deciduous())))
        .isBetween(200L, 1500L);
  }

  @Test
  void acceptancesAreGivenForTheNumbersThatStand() {
    Examiner examiner = new Examiner();
    for (Treatment treatment : MANY) {
      if (!treatment.acceptances().isEmpty()) {
        assertThat(examiner.examine(treatment, LocalDate.of(2026, 10, 30)).findings())
            .as(treatment.id())
            .anyMatch(judged -> judged.acceptance() != null);
      }
    }
  }

  private static boolean status(Treatment treatment, Completion.Status status) {
    Completion completion = treatment.completion();
    return completion != null && completion.status() == status;
  }
}
