package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.DynamicTest.dynamicTest;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.intercusp.finding.Finding;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Limits;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Every rule is described whole, and its samples do what they say. */
class RuleCatalogueTest {

  @Test
  void theBaseOfTheSamplesIsCleanButForTheHeightThatEveryBiteShows() {
    Examination examination = new Examiner().examine(SampleTreatments.base(), day("{}"));
    assertThat(examination.findings())
        .extracting(judged -> judged.finding().code())
        .containsExactly("bite-height-band");
  }

  @Test
  void codesAreUniqueAndKebabCase() {
    assertThat(RuleCatalogue.rules())
        .extracting(RuleDescription::code)
        .doesNotHaveDuplicates()
        .allMatch(code -> code.matches("[a-z]+(-[a-z]+)+"));
  }

  @Test
  void thePublishedCodeSystemHoldsTheSameCodes() throws IOException {
    JsonNode system =
        JsonMapper.shared().readTree(Files.readAllBytes(Path.of("profiles/CodeSystem-rule.json")));
    List<String> published = new ArrayList<>();
    system.get("concept").forEach(concept -> published.add(concept.get("code").stringValue()));
    assertThat(published)
        .containsExactlyInAnyOrderElementsOf(
            RuleCatalogue.rules().stream().map(RuleDescription::code).toList());
  }

  @TestFactory
  Stream<DynamicTest> failingSamplesAreFoundAtTheirPointer() {
    return RuleCatalogue.all().stream()
        .map(
            rule ->
                dynamicTest(
                    rule.description().code(),
                    () -> {
                      RuleDescription description = rule.description();
                      List<Finding> found = run(rule, description.failing());
                      assertThat(found)
                          .extracting(Finding::code)
                          .isNotEmpty()
                          .containsOnly(description.code());
                      assertThat(found)
                          .extracting(finding -> finding.pointer().text())
                          .containsExactly(description.failing().pointer());
                      assertThat(found)
                          .allMatch(
                              finding -> description.severities().contains(finding.severity()))
                          .allMatch(finding -> !finding.message().isBlank())
                          .allMatch(finding -> !finding.remedy().isBlank());
                    }));
  }

  @TestFactory
  Stream<DynamicTest> passingSamplesAreNot() {
    return RuleCatalogue.all().stream()
        .map(
            rule ->
                dynamicTest(
                    rule.description().code(),
                    () -> assertThat(run(rule, rule.description().passing())).isEmpty()));
  }

  @TestFactory
  Stream<DynamicTest> descriptionsAreWhole() {
    return RuleCatalogue.rules().stream().map(rule -> dynamicTest(rule.code(), () -> whole(rule)));
  }

  private static void whole(RuleDescription rule) {
    assertThat(Stream.of(rule.compares(), rule.limit(), rule.remedy(), rule.fhirPath()))
        .allMatch(text -> text.length() > 8);
    assertThat(rule.source().shown()).isNotBlank();
    Pattern pattern = Pattern.compile(asRegex(rule.pointer()));
    assertThat(rule.failing().pointer()).matches(pattern);
    rule.settable().forEach(limit -> assertThat(limit.lowest()).isLessThanOrEqualTo(limit.usual()));
    assertThat(rule.failing().changes()).isNotEqualTo(rule.passing().changes());
  }

  private static String asRegex(String pointers) {
    return "(" + pointers.replace("**", ".+").replace("*", "[^/]+").replace(" or ", ")|(") + ")";
  }

  private static List<Finding> run(Rule rule, Sample sample) {
    Treatment treatment = SampleTreatments.changed(sample.changes());
    Case about = Case.of(treatment, day(sample.changes()), Limits.USUAL);
    return Findings.of(rule, sample.to() == null ? about : about.deliveredTo(sample.to()));
  }

  static LocalDate day(String changes) {
    return SampleTreatments.changed(changes).asOf();
  }
}
