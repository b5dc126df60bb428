package org.intercusp.conformance;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.fhir.Profile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Each profile lets its example pass and refuses it once one thing is broken that base R4 allows.
 */
class ProfileBitesTest {

  private static final JsonMapper JSON = JsonMapper.builder().build();

  private static Arguments removed(Profile profile, String pointer, FhirRule rule) {
    return Arguments.of(profile, pointer, null, rule);
  }

  private static Arguments changed(Profile profile, String pointer, String value, FhirRule rule) {
    return Arguments.of(profile, pointer, value, rule);
  }

  static Stream<Arguments> broken() {
    FhirRule card = FhirRule.CARDINALITY;
    return Stream.of(
        removed(Profile.TREATMENT_BUNDLE, "/entry", card),
        changed(Profile.TREATMENT_DOCUMENT, "/type", "\"collection\"", FhirRule.PATTERN),
        removed(Profile.SUMMARY, "/section/0/text", card),
        removed(Profile.PATIENT, "/birthDate", card),
        removed(Profile.PRACTITIONER, "/name/0/family", card),
        removed(Profile.PRACTITIONER_ROLE, "/practitioner", card),
        removed(Profile.ORGANIZATION, "/name", card),
        removed(Profile.CARE_TEAM, "/participant/0/role", card),
        removed(Profile.ALLERGY, "/code", card),
        removed(Profile.CONSENT, "/dateTime", card),
        removed(Profile.MALOCCLUSION, "/recordedDate", card),
        changed(Profile.OVERJET, "/valueQuantity/code", "\"cm\"", FhirRule.PATTERN),
        changed(Profile.OVERBITE, "/valueQuantity/value", "44", FhirRule.CONSTRAINT),
        removed(Profile.OCCLUSAL_MEASUREMENT, "/component", FhirRule.CONSTRAINT),
        removed(Profile.CLINICAL_SIGN, "/valueCodeableConcept", FhirRule.CONSTRAINT),
        changed(
            Profile.TEETH_PRESENT,
            "/component/0/valueCodeableConcept/coding",
            "[{\"system\":\"urn:iso:std:iso:3950\",\"code\":\"99\"}]",
            FhirRule.CODE),
        removed(Profile.CONSTRUCTION_BITE, "/component/0", card),
        removed(Profile.APPLIANCE_PRESCRIPTION, "/authoredOn", card),
        removed(Profile.LABORATORY_TASK, "/focus", card),
        removed(Profile.APPLIANCE, "/patient", card),
        removed(Profile.APPLIANCE_STATEMENT, "/subject", card),
        removed(Profile.APPLIANCE_FITTING, "/focalDevice", card),
        removed(Profile.APPLIANCE_USE, "/timingPeriod", card),
        removed(Profile.TREATMENT_PLAN, "/careTeam", card),
        removed(Profile.STAGE_PLAN, "/partOf", card),
        removed(Profile.STAGE_PRESCRIPTION, "/identifier", card),
        removed(Profile.STAGE_GOAL, "/target", card),
        removed(Profile.REVIEW, "/period/start", card),
        removed(Profile.NEXT_REVIEW, "/identifier", card),
        changed(Profile.WEAR, "/valueQuantity/value", "25", FhirRule.CONSTRAINT),
        removed(Profile.REVIEW_PROCEDURE, "/encounter", card),
        removed(Profile.HARM, "/onsetDateTime", card),
        removed(Profile.ADVERSE_EVENT, "/date", card),
        changed(
            Profile.CEPHALOMETRIC_TRACING,
            "/component/1/valueQuantity/code",
            "\"cm\"",
            FhirRule.CONSTRAINT),
        changed(
            Profile.STUDY_MODEL, "/component/0/valueQuantity/code", "\"cm\"", FhirRule.CONSTRAINT),
        removed(Profile.OUTCOME_SCORING, "/performer", card),
        removed(Profile.OCCLUSAL_FINDINGS, "/effectiveDateTime", card),
        removed(Profile.INDEX_SCORE, "/method", card),
        removed(Profile.REPORTED_OUTCOME, "/subject", card),
        changed(
            Profile.TREATMENT_STATUS,
            "/valueCodeableConcept/coding",
            "[{\"system\":\"http://a.example\",\"code\":\"gone\"}]",
            FhirRule.CODE),
        removed(Profile.OUTCOME_BUNDLE, "/identifier", card),
        removed(Profile.REGISTRY_PATIENT, "/identifier", card),
        removed(Profile.REGISTRY_CONSENT, "/organization", card),
        removed(Profile.REGISTRY_COURSE, "/performer", card),
        removed(Profile.REGISTRY_ASSESSMENT, "/effectiveDateTime", card),
        removed(Profile.FINDING, "/code", card));
  }

  @ParameterizedTest
  @MethodSource("broken")
  void refusesWhatIsBroken(Profile profile, String pointer, String value, FhirRule rule) {
    JsonNode example = example(profile);
    assertThat(Judges.stopping(judged(example))).isEmpty();

    alter(example, pointer, value);

    assertThat(Judges.stopping(judged(example))).extracting(Issue::rule).contains(rule.code());
    ((ObjectNode) example).remove("meta");
    assertThat(Judges.stopping(judged(example))).as("base R4 has no objection").isEmpty();
  }

  /** Reverse overjet and open bite are negative; the treatment file takes both up to 20 mm. */
  @ParameterizedTest
  @CsvSource({
    "-20.5, false", "-20, true", "-9, true", "-1, true", "-0.5, true",
    "0, true", "3.50, true", "20, true", "20.5, false", "100, false"
  })
  void lengthsOfEitherSignAreTakenUpToTheirBounds(String value, boolean taken) {
    for (Profile profile : List.of(Profile.OVERJET, Profile.OVERBITE)) {
      JsonNode example = example(profile);
      alter(example, "/valueQuantity/value", value);
      assertThat(Judges.stopping(judged(example)).isEmpty())
          .as(profile + " " + value)
          .isEqualTo(taken);
    }
  }

  @Test
  void everyProfileIsBrokenOnce() {
    Set<Object> covered = broken().map(arguments -> arguments.get()[0]).collect(Collectors.toSet());
    assertThat(covered).isEqualTo(Arrays.stream(Profile.values()).collect(Collectors.toSet()));
  }

  private static List<Issue> judged(JsonNode resource) {
    String text = JSON.writeValueAsString(resource);
    return Judges.SHARED.validate(text.getBytes(StandardCharsets.UTF_8), Format.JSON).stream()
        .filter(issue -> issue.rule().startsWith("fhir-") || issue.rule().startsWith("guard-"))
        .toList();
  }

  private static JsonNode example(Profile profile) {
    Path file =
        Path.of("profiles/example", profile.type() + "-" + profile.kebab() + "-example.json");
    try {
      return JSON.readTree(Files.readString(file));
    } catch (java.io.IOException e) {
      throw new java.io.UncheckedIOException(e);
    }
  }

  private static void alter(JsonNode tree, String pointer, String value) {
    int slash = pointer.lastIndexOf('/');
    JsonNode parent = tree.at(pointer.substring(0, slash));
    String member = pointer.substring(slash + 1);
    assertThat(tree.at(pointer).isMissingNode()).as(pointer + " is in the example").isFalse();
    if (parent instanceof ArrayNode list) {
      list.remove(Integer.parseInt(member));
    } else if (value == null) {
      ((ObjectNode) parent).remove(member);
    } else {
      ((ObjectNode) parent).set(member, JSON.readTree(Objects.requireNonNull(value)));
    }
  }
}
