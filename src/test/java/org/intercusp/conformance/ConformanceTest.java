package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.time.LocalDate;
import java.util.List;
import org.hl7.fhir.instance.model.api.IBase;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Condition;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Quantity;
import org.intercusp.fhir.BundleForm;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

class ConformanceTest {

  private static final Conformance JUDGE = Judges.SHARED;

  private static List<Issue> judged(String json) {
    return JUDGE.validate(json.getBytes(UTF_8), Format.JSON);
  }

  private static String pretty(Bundle bundle) {
    return Judges.FHIR.newJsonParser().setPrettyPrint(true).encodeResourceToString(bundle);
  }

  private static String xml(Bundle bundle) {
    return Judges.FHIR.newXmlParser().setPrettyPrint(true).encodeResourceToString(bundle);
  }

  @ParameterizedTest
  @EnumSource
  void aSoundTreatmentPassesInEveryForm(BundleForm form) {
    Bundle bundle = Judges.bundle(Judges.sound(), form);
    assertThat(Judges.stopping(JUDGE.validate(bundle))).isEmpty();
    assertThat(Judges.stopping(JUDGE.validate(xml(bundle).getBytes(UTF_8), Format.XML))).isEmpty();
    JUDGE.mustPass(bundle);
  }

  @Test
  void whatPassedIsJudgedAnewWhenItChangesOrOnAnotherDay() {
    Bundle bundle = Judges.bundle(Judges.sound(), BundleForm.TRANSACTION);
    JUDGE.mustPass(bundle);
    long begun = System.nanoTime();
    JUDGE.validate(bundle);
    long judging = System.nanoTime() - begun;
    long again = Long.MAX_VALUE;
    for (int i = 0; i < 3; i++) {
      begun = System.nanoTime();
      JUDGE.mustPass(bundle);
      again = Math.min(again, System.nanoTime() - begun);
    }
    assertThat(again).as("not judged again").isLessThan(judging / 2);

    // Before anything in the record was written.
    assertThatThrownBy(() -> JUDGE.on(LocalDate.of(2020, 1, 1)).mustPass(bundle))
        .isInstanceOf(NotConformant.class);
    JUDGE.mustPass(bundle);
    reading(bundle, "bite-registered-reading").setValue(12);
    assertThatThrownBy(() -> JUDGE.mustPass(bundle)).isInstanceOf(NotConformant.class);
    assertThatThrownBy(() -> JUDGE.mustPass(bundle))
        .as("what did not pass is remembered as passed by nobody")
        .isInstanceOf(NotConformant.class);
  }

  @Test
  void nothingOfAWholeTreatmentBreaksFhir() {
    Bundle bundle = Judges.bundle(Judges.whole(), BundleForm.TRANSACTION);
    assertThat(Judges.stopping(JUDGE.validate(bundle)))
        .isNotEmpty()
        .noneMatch(issue -> issue.rule().startsWith("fhir-"));
  }

  @Test
  void rulesOfTheTradeAreReadBackAndPlaced() {
    Bundle bundle = Judges.bundle(Judges.sound(), BundleForm.COLLECTION);
    Quantity registered = reading(bundle, "bite-registered-reading");
    registered.setValue(12);
    for (Format format : Format.values()) {
      String text = format == Format.JSON ? pretty(bundle) : xml(bundle);
      List<Issue> issues = JUDGE.validate(text.getBytes(UTF_8), format);
      assertThat(issues)
          .filteredOn(issue -> issue.rule().equals("bite-share-exceeded"))
          .singleElement()
          .satisfies(
              issue -> {
                assertThat(issue.weight()).isEqualTo(Weight.ERROR);
                List<IBase> at = evaluated(bundle, issue.expression());
                assertThat(at)
                    .singleElement()
                    .satisfies(q -> assertThat(q).isInstanceOf(Quantity.class));
                assertThat(((Quantity) at.get(0)).getValue()).isEqualByComparingTo("12");
                assertThat(text.lines().skip(issue.line() - 1L).limit(3).toList().toString())
                    .contains("12");
              });
    }
    assertThatThrownBy(() -> JUDGE.mustPass(bundle))
        .isInstanceOf(NotConformant.class)
        .hasMessageContaining("bite-share-exceeded");
  }

  @Test
  void everyExpressionResolvesAndEveryRunSaysTheSame() {
    Bundle bundle = Judges.bundle(Judges.whole(), BundleForm.COLLECTION);
    bundle
        .getEntry()
        .forEach(
            entry -> {
              if (entry.getResource() instanceof Observation observation) {
                observation.setStatus(null);
                observation.getCode().addCoding().setSystem("http://loinc.org").setCode("1-1");
              } else if (entry.getResource() instanceof Condition condition) {
                condition.getCode().getCodingFirstRep().setCode("nonsense");
              }
            });
    String text = pretty(bundle);
    List<Issue> issues = judged(text);

    assertThat(issues)
        .hasSizeGreaterThan(100)
        .isSortedAccordingTo(Issue.ORDER)
        .isEqualTo(judged(text));
    assertThat(issues)
        .allSatisfy(
            issue -> {
              assertThat(evaluated(bundle, issue.expression())).as(issue.toString()).isNotEmpty();
              assertThat(issue.line()).as(issue.toString()).isNotNull();
              assertThat(issue.text()).isNotBlank();
            });
  }

  @Test
  void unknownCodesFollowThePolicy() {
    String observation =
        """
        {"resourceType":"Observation","status":"final",
         "code":{"coding":[{"system":"%s","code":"%s"}]},"valueQuantity":
          {"value":1,"system":"http://unitsofmeasure.org","code":"%s"}}
        """;
    String ours = "https://intercusp.example/fhir/CodeSystem/measurement";
    assertThat(judged(observation.formatted("http://loinc.org", "32916-9", "mm"))).isEmpty();
    assertThat(judged(observation.formatted("http://loinc.org", "99999-9", "mm")))
        .extracting(Issue::weight, Issue::rule, Issue::value)
        .containsExactly(tuple(Weight.WARNING, "fhir-code", "99999-9"));
    assertThat(judged(observation.formatted("http://snomed.info/sct", "1", "mm")))
        .extracting(Issue::weight)
        .containsExactly(Weight.WARNING);
    assertThat(judged(observation.formatted("http://nobody.example", "1", "mm")))
        .extracting(Issue::weight)
        .containsExactly(Weight.WARNING);
    assertThat(judged(observation.formatted(ours, "nonsense", "mm")))
        .extracting(Issue::weight, Issue::rule)
        .contains(tuple(Weight.ERROR, "fhir-code"));
    assertThat(judged(observation.formatted(ours, "wear", "millimetre")))
        .extracting(Issue::weight, Issue::rule)
        .contains(tuple(Weight.ERROR, "fhir-code"));
  }

  /** The validator says so while it reads, and then without the identifier of a message. */
  @ParameterizedTest
  @EnumSource
  void aMemberThatDoesNotExistIsToldAsSuch(Format format) {
    String text =
        format == Format.JSON
            ? "{\"resourceType\":\"Basic\",\"code\":{\"text\":\"a\"},\"colour\":\"red\"}"
            : "<Basic xmlns=\"http://hl7.org/fhir\"><code><text value=\"a\"/></code>"
                + "<colour value=\"red\"/></Basic>";
    assertThat(JUDGE.validate(text.getBytes(UTF_8), format))
        .filteredOn(issue -> issue.text().contains("colour"))
        .extracting(Issue::weight, Issue::rule)
        .contains(tuple(Weight.ERROR, "fhir-unknown-member"));
  }

  @Test
  void unknownProfilesFollowThePolicy() {
    String claiming =
        "{\"resourceType\":\"Basic\",\"meta\":{\"profile\":[\"%s\"]},\"code\":{\"text\":\"a\"}}";
    assertThat(judged(claiming.formatted("http://nobody.example/StructureDefinition/x")))
        .isNotEmpty()
        .allMatch(issue -> issue.weight() == Weight.INFORMATION)
        .anyMatch(issue -> issue.rule().equals("fhir-unknown-profile"));
    assertThat(judged(claiming.formatted("https://intercusp.example/fhir/StructureDefinition/x")))
        .extracting(Issue::weight, Issue::rule)
        .contains(tuple(Weight.ERROR, "fhir-unknown-profile"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "{\"resourceType\":\"Nonsense\"}",
        "{\"resourceType\":\"Patient\",\"name\":\"a\"}",
        "{\"resourceType\":\"Patient\",\"birthDate\":\"2026-13-01\"}",
        "{\"resourceType\":\"Bundle\",\"type\":\"collection\",\"entry\":[{\"resource\":{\"resourceType\":\"Nonsense\"}}]}",
        "{\"resourceType\":5}",
        "{\"resourceType\":\"Patient\",\"contained\":[null]}"
      })
  void whatIsNoResourceIsRefusedAndNothingBreaks(String document) {
    assertThat(Judges.stopping(judged(document))).isNotEmpty();
  }

  @Test
  void theGuardSpeaksFirst() {
    assertThat(judged("{\"resourceType\":\"Patient\",\"resourceType\":\"Patient\"}"))
        .extracting(Issue::rule)
        .containsExactly(GuardRule.DUPLICATE_MEMBER.code());
  }

  @Test
  void aProfileCanBeAskedFor() {
    byte[] patient = "{\"resourceType\":\"Patient\"}".getBytes(UTF_8);
    String profile = "https://intercusp.example/fhir/StructureDefinition/patient";
    assertThat(Judges.stopping(JUDGE.validate(patient, Format.JSON))).isEmpty();
    assertThat(JUDGE.validate(patient, Format.JSON, List.of(AskedProfile.of(profile))))
        .extracting(Issue::rule)
        .contains(FhirRule.CARDINALITY.code());
  }

  @Test
  void aRingWithinTheLimitsIsJudged() {
    StringBuilder entries = new StringBuilder();
    for (int i = 0; i < 120; i++) {
      entries
          .append(i == 0 ? "" : ",")
          .append(
              "{\"fullUrl\":\"urn:uuid:00000000-0000-4000-8000-%012d\",\"resource\":".formatted(i))
          .append(
              "{\"resourceType\":\"Observation\",\"status\":\"final\",\"code\":{\"text\":\"a\"},")
          .append(
              "\"hasMember\":[{\"reference\":\"urn:uuid:00000000-0000-4000-8000-%012d\"}]}}"
                  .formatted((i + 1) % 120));
    }
    assertThat(
            Judges.stopping(
                judged(
                    "{\"resourceType\":\"Bundle\",\"type\":\"collection\",\"entry\":["
                        + entries
                        + "]}")))
        .isEmpty();
  }

  private static org.assertj.core.groups.Tuple tuple(Object... values) {
    return org.assertj.core.groups.Tuple.tuple(values);
  }

  private static List<IBase> evaluated(Bundle bundle, String expression) {
    return Judges.FHIR.newFhirPath().evaluate(bundle, expression, IBase.class);
  }

  private static Quantity reading(Bundle bundle, String code) {
    return bundle.getEntry().stream()
        .map(Bundle.BundleEntryComponent::getResource)
        .filter(Observation.class::isInstance)
        .flatMap(resource -> ((Observation) resource).getComponent().stream())
        .filter(part -> part.getCode().getCodingFirstRep().getCode().equals(code))
        .map(part -> part.getValueQuantity())
        .findFirst()
        .orElseThrow();
  }
}
