package org.intercusp.samples;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.ReadBack;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.rules.RuleCatalogue;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The samples are documentation, golden files and test corpus in one. What is expected of them
 * never rewrites itself: {@link WriteSamples} does, on purpose.
 */
class SamplesTest {

  static Stream<Sample> samples() {
    return Sample.all().stream();
  }

  @ParameterizedTest
  @MethodSource("samples")
  void findingsAreAsExpected(Sample sample) {
    String golden = Sample.golden(sample.findingsFile());
    assertThat(JsonDifference.between(golden, sample.findings())).isEmpty();
    assertThat(sample.findings()).isEqualTo(golden);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void theBundleIsAsExpected(Sample sample) {
    String golden = Sample.golden(sample.bundleFile());
    assertThat(JsonDifference.between(golden, sample.bundleText())).isEmpty();
    assertThat(sample.bundleText()).isEqualTo(golden);
  }

  @ParameterizedTest
  @MethodSource("samples")
  void theExpectedBundleReadsBackAsTheTreatment(Sample sample) {
    Bundle bundle =
        FhirContext.forR4Cached()
            .newJsonParser()
            .parseResource(Bundle.class, Sample.golden(sample.bundleFile()));
    ReadBack back = new TreatmentMapper(Canonicals.RESERVED).fromBundle(bundle);
    assertThat(back.faults()).isEmpty();
    assertThat(back.treatment()).isEqualTo(sample.treatment());
  }

  @ParameterizedTest
  @MethodSource("samples")
  void theFileIsReadAndWrittenBack(Sample sample) {
    Treatment treatment = sample.treatment();
    assertThat(treatment.asOf()).isNotNull();
    assertThat(new TreatmentReader().read(new TreatmentWriter().write(treatment)))
        .isEqualTo(new ReadResult.Accepted(treatment));
  }

  private static Set<String> codes(String sample) {
    return new Sample(sample)
        .examination().findings().stream()
            .map(judged -> judged.finding().code())
            .collect(Collectors.toSet());
  }

  private static boolean mayGo(String sample) {
    return new Sample(sample).examination().mayGo();
  }

  @Test
  void eachSampleShowsWhatItIsNamedFor() {
    assertThat(Sample.all()).hasSizeGreaterThanOrEqualTo(8);
    assertThat(codes("unsafe-bite-refused")).contains("bite-share-exceeded", "bite-step-large");
    assertThat(mayGo("unsafe-bite-refused")).isFalse();
    assertThat(codes("unsafe-bite-accepted")).contains("bite-share-exceeded");
    assertThat(mayGo("unsafe-bite-accepted")).isTrue();
    assertThat(codes("allergy")).contains("appliance-allergy");
    assertThat(mayGo("allergy")).isFalse();
    assertThat(codes("mixed-dentition")).contains("appliance-clasp-deciduous");
    if (RuleCatalogue.rule("review-progress-slow").isPresent()) {
      assertThat(codes("slow-progress-doubtful-wear"))
          .contains("review-progress-slow", "review-wear-doubt");
    }
    Treatment withoutHospital = new Sample("consent-without-hospital").treatment();
    assertThat(withoutHospital.patient().consent().scope())
        .doesNotContain(ConsentScope.HOSPITAL)
        .contains(ConsentScope.REFERRER);
    assertThat(new Sample("overjet-11-staged").treatment().bites()).hasSize(2);
    assertThat(new Sample("stage-change").treatment().reviews())
        .extracting(review -> review.stageId())
        .contains("active", "support");
  }

  @Test
  void thoseInOrderMayGo() {
    List<String> inOrder =
        List.of(
            "deep-bite-one-step",
            "overjet-11-staged",
            "mixed-dentition",
            "reduced-overbite-no-trimming",
            "slow-progress-doubtful-wear",
            "stage-change",
            "consent-without-hospital");
    assertThat(inOrder).allMatch(SamplesTest::mayGo);
  }

  @Test
  void differencesPrintAsPaths() {
    assertThat(
            JsonDifference.between(
                "{\"a\":{\"b\":[1,2]},\"c\":1.0}", "{\"a\":{\"b\":[1,3,4]},\"d\":1}"))
        .containsExactly(
            "$.a.b[1]: expected 2, is 3",
            "$.a.b[2]: not expected, is 4",
            "$.c: expected 1.0, is missing",
            "$.d: not expected, is 1");
  }
}
