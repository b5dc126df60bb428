package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.function.UnaryOperator;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.LocalSystem;
import org.intercusp.registry.bundle.OutcomeBundles;
import org.intercusp.scenario.OutcomeGenerator;
import org.intercusp.treatment.submission.CourseStatus;
import org.intercusp.treatment.submission.ReadSubmission;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionReader;
import org.intercusp.treatment.submission.SubmissionWriter;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * The general FHIR validator and the streaming checks agree on outcome records, whole ones and
 * broken ones; and a record comes back from its Bundle as it was.
 */
@Tag("steady")
class OutcomeAgreementTest {

  private static final LocalDate TODAY = LocalDate.of(2026, 11, 1);
  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-01T12:00:00Z"), ZoneOffset.UTC);

  private final OutcomeBundles bundles =
      new OutcomeBundles(Judges.FHIR, Canonicals.RESERVED, CLOCK);
  private final SubmissionReader reader = new SubmissionReader();
  private final SubmissionWriter writer = new SubmissionWriter();
  private final JsonMapper json = new JsonMapper();

  @Test
  void everyRecordComesBackFromItsBundle() {
    new OutcomeGenerator()
        .records(500, 11)
        .forEach(
            record ->
                assertThat(bundles.fromBundle(overTheWire(bundles.toBundle(record))))
                    .isEqualTo(new ReadSubmission.Accepted(record)));
  }

  @Test
  void aWithdrawalComesBackAndConforms() {
    Submission any = new OutcomeGenerator().records(1, 11).findFirst().orElseThrow();
    Submission withdrawal =
        new Submission(
            Submission.Kind.WITHDRAWAL,
            any.submitter(),
            any.submission(),
            3,
            any.clinic(),
            any.treatment(),
            any.patient(),
            new Submission.Agreement(any.consent().recordedOn(), LocalDate.of(2026, 10, 31)),
            null);
    Bundle bundle = overTheWire(bundles.toBundle(withdrawal));
    assertThat(bundles.fromBundle(bundle)).isEqualTo(new ReadSubmission.Accepted(withdrawal));
    assertThat(Judges.stopping(Judges.SHARED.validate(bundle))).isEmpty();
  }

  @Test
  void anEndNobodyKnowsIsToldByBothAlike() {
    Submission record =
        new OutcomeGenerator()
            .records(500, 11)
            .filter(each -> each.course().status() == CourseStatus.UNKNOWN)
            .findFirst()
            .orElseThrow();
    String text = encoded(bundles.toBundle(record));
    String reason = "\"dataAbsentReason\":";
    assertThat(text).containsOnlyOnce(reason);
    bothSay(text, true);
    bothSay(text.replace("\"code\":\"unknown\"", "\"code\":\"masked\""), false);
    // Known and not known at once; a day of a decision nobody took.
    String code =
        "\"valueCodeableConcept\":{\"coding\":[{\"system\":\"%s\",\"code\":\"completed\"}]},";
    String statuses = Canonicals.RESERVED.of(LocalSystem.TREATMENT_STATUS);
    bothSay(text.replace(reason, code.formatted(statuses) + reason), false);
    bothSay(text.replace("\"code\":\"last-attended\"", "\"code\":\"decided\""), false);
  }

  private void bothSay(String text, boolean conforms) {
    assertThat(bundles.fromJson(text) instanceof ReadSubmission.Accepted).isEqualTo(conforms);
    List<Issue> stopping =
        Judges.stopping(Judges.SHARED.validate(text.getBytes(StandardCharsets.UTF_8), Format.JSON));
    assertThat(stopping.isEmpty()).as("%s", stopping).isEqualTo(conforms);
  }

  @Test
  void theGeneralValidatorAgreesOnSome() {
    agree(30);
  }

  @Test
  @Tag("long")
  void theGeneralValidatorAgreesOnAThousand() {
    agree(Integer.getInteger("outcome.sample", 1000));
  }

  private void agree(int count) {
    List<Submission> records = new OutcomeGenerator().records(count, 2026).toList();
    int refused = 0;
    for (int i = 0; i < count; i++) {
      Bundle whole = bundles.toBundle(records.get(i));
      UnaryOperator<JsonNode> change = CHANGES.get(i % CHANGES.size());
      JsonNode changed = change.apply(json.readTree(encoded(whole)));
      String text = json.writeValueAsString(changed);
      boolean streaming = bundles.fromJson(text) instanceof ReadSubmission.Accepted;
      List<Issue> stopping =
          Judges.stopping(
              Judges.SHARED.validate(text.getBytes(StandardCharsets.UTF_8), Format.JSON));
      assertThat(stopping.isEmpty())
          .as("record %d, change %d: %s", i, i % CHANGES.size(), stopping)
          .isEqualTo(streaming);
      refused += streaming ? 0 : 1;
    }
    assertThat(refused).isGreaterThan(count / 5).isLessThan(count);
  }

  /** Nothing, then one fault each; where the part is not there, nothing again. */
  private static final List<UnaryOperator<JsonNode>> CHANGES =
      List.of(
          bundle -> bundle,
          bundle -> set(bundle, "wear-reported", "/valueQuantity", "value", "25"),
          bundle -> set(bundle, "breakages", "", "valueInteger", "-1"),
          bundle -> set(bundle, "par-upper-anterior", "", "valueInteger", "26"),
          bundle -> set(bundle, "overjet", "/valueQuantity", "value", "21"),
          bundle -> set(bundle, "first-fitted", "", "valueDateTime", "\"2001-01-01\""),
          bundle -> set(bundle, "last-attended", "", "valueDateTime", "\"1999-01-01\""),
          bundle -> set(bundle, "status", "/valueCodeableConcept/coding/0", "code", "\"gone\""),
          bundle -> set(bundle, "icon-vertical", "", "valueInteger", "5"),
          bundle -> submission(bundle, ".."),
          bundle -> remove(bundle, "par-overjet"),
          bundle -> remove(bundle, "appliance"));

  private static JsonNode submission(JsonNode bundle, String id) {
    ((ObjectNode) bundle.path("identifier")).put("value", id);
    return bundle;
  }

  private static JsonNode set(
      JsonNode bundle, String item, String below, String member, String value) {
    for (JsonNode part : bundle.findValues("component")) {
      for (JsonNode each : part) {
        if (each.at("/code/coding/0/code").asString().equals(item)) {
          ((ObjectNode) each.at(below)).set(member, new JsonMapper().readTree(value));
          return bundle;
        }
      }
    }
    return bundle;
  }

  private static JsonNode remove(JsonNode bundle, String item) {
    for (JsonNode part : bundle.findValues("component")) {
      for (int i = 0; i < part.size(); i++) {
        if (part.get(i).at("/code/coding/0/code").asString().equals(item)) {
          ((tools.jackson.databind.node.ArrayNode) part).remove(i);
          return bundle;
        }
      }
    }
    return bundle;
  }

  private static String encoded(Bundle bundle) {
    return Judges.FHIR.newJsonParser().encodeResourceToString(bundle);
  }

  private static Bundle overTheWire(Bundle bundle) {
    return Judges.FHIR.newJsonParser().parseResource(Bundle.class, encoded(bundle));
  }

  @Test
  void theReaderOfLinesAcceptsWhatTheBundleHolds() {
    new OutcomeGenerator()
        .records(50, 4)
        .forEach(
            record ->
                assertThat(reader.read(writer.write(record), TODAY))
                    .isEqualTo(bundles.fromBundle(bundles.toBundle(record))));
  }
}
