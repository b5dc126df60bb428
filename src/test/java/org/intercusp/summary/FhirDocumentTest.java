package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Composition;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.GuardLimits;
import org.intercusp.conformance.Issue;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The FHIR document says what page and paper say, is valid, and holds what its reader may have. */
class FhirDocumentTest {

  private static final Conformance JUDGE =
      new Conformance(
          FhirContext.forR4Cached(),
          GuardLimits.DEFAULT,
          Clock.fixed(Instant.parse("2026-09-01T00:00:00Z"), ZoneOffset.UTC));

  static List<Path> samples() throws Exception {
    try (Stream<Path> files = Files.list(Path.of("sample-bundles"))) {
      return files.filter(each -> each.toString().endsWith(".treatment.json")).sorted().toList();
    }
  }

  @ParameterizedTest
  @MethodSource("samples")
  void pagePaperAndFhirDocumentOfASampleSayTheSameNumbers(Path sample) throws Exception {
    Treatment treatment = read(sample);
    for (Audience audience : Audience.values()) {
      String main = main(Written.html(treatment, audience));
      Set<String> onPage = Written.numbers(Written.text(main)).keySet();
      Set<String> inFhir = numbers(treatment, audience);
      assertThat(onPage).isNotEmpty();
      assertThat(inFhir).as("FHIR, %s", audience).containsAll(onPage);
      Set<String> onPaper =
          Written.numbers(Written.text(Written.pdf(treatment, audience))).keySet();
      assertThat(onPaper).as("paper, %s", audience).containsAll(onPage);
      Set<String> whole =
          new HashSet<>(Written.numbers(everything(Written.html(treatment, audience))).keySet());
      assertThat(whole).as("page, %s", audience).containsAll(inFhir);
    }
  }

  @Test
  void aNumberThatOneOfThemLacksIsFound() {
    Treatment treatment = SampleTreatments.base();
    Treatment other = SampleTreatments.changed("{\"/diagnosis/overjet\": 8.25}");
    assertThat(numbers(other, Audience.DENTIST))
        .contains("8.25")
        .isNotEqualTo(numbers(treatment, Audience.DENTIST));
    assertThat(numbers(treatment, Audience.DENTIST)).doesNotContain("8.25");
  }

  @ParameterizedTest
  @MethodSource("samples")
  void theDocumentsOfASampleAreValid(Path sample) throws Exception {
    List<String> faults = new ArrayList<>();
    for (Audience audience : Audience.values()) {
      Bundle bundle = document(read(sample), audience);
      faults.addAll(faults(bundle));
      assertDocumentRules(bundle);
    }
    assertThat(faults).isEmpty();
  }

  @ParameterizedTest
  @EnumSource(Audience.class)
  void aBareAHostileAndALongRecordAreValidToo(Audience audience) {
    List<String> faults = new ArrayList<>();
    for (Treatment each :
        List.of(
            SampleTreatments.changed(OddTreatments.BARE),
            SampleTreatments.changed(OddTreatments.NO_REVIEWS),
            OddTreatments.hostile(),
            OddTreatments.sixtyReviews())) {
      faults.addAll(faults(document(each, audience)));
      assertThat(Written.narrative(each, audience))
          .doesNotContain("<tbody></tbody>", "<tr></tr>", "<ul></ul>", "<script", "<img");
    }
    assertThat(faults).isEmpty();
  }

  @Test
  void theDentistsDocumentReadsBackAsTheTreatment() throws Exception {
    for (Path sample : samples()) {
      Treatment treatment = read(sample);
      assertThat(
              new TreatmentMapper(Canonicals.RESERVED)
                  .fromBundle(document(treatment, Audience.DENTIST))
                  .treatment())
          .isEqualTo(treatment);
    }
  }

  @Test
  void everySectionOfTheDentistsDocumentHoldsItsResourcesOnce() {
    Bundle bundle = document(SampleTreatments.base(), Audience.DENTIST);
    List<String> held = new ArrayList<>();
    composition(bundle)
        .getSection()
        .forEach(section -> section.getEntry().forEach(each -> held.add(each.getReference())));
    assertThat(held)
        .doesNotHaveDuplicates()
        .containsExactlyInAnyOrderElementsOf(
            bundle.getEntry().stream().skip(1).map(BundleEntryComponent::getFullUrl).toList());
    assertThat(composition(bundle).getType().getCodingFirstRep().getCode()).isEqualTo("34756-7");
    assertThat(composition(bundle).getText().getDivAsString()).contains("the clinician decides");
  }

  @Test
  void theLaboratorysDocumentKnowsThePatientByNumberAlone() {
    Bundle bundle = document(SampleTreatments.base(), Audience.LABORATORY);
    assertThat(text(bundle)).contains("HL-2100").doesNotContain("Fairweather", "Robin");
    assertThat(composition(bundle).getSubject().getReference()).isNull();
  }

  @Test
  void thePatientsDocumentHoldsNoFindingsAndNobodyElse() {
    assertThat(document(SampleTreatments.base(), Audience.PATIENT).getEntry())
        .extracting(each -> each.getResource().fhirType())
        .containsExactlyInAnyOrder("Composition", "Patient", "Practitioner", "Organization");
  }

  @Test
  void theSameTreatmentAndDayGiveTheSameBytes() {
    for (Audience audience : Audience.values()) {
      byte[] once = Written.bytes(SampleTreatments.base(), audience, Form.FHIR, Locale.ENGLISH);
      byte[] again = Written.bytes(SampleTreatments.base(), audience, Form.FHIR, Locale.ENGLISH);
      assertThat(again).isEqualTo(once);
    }
  }

  @Test
  void aLanguageFromRightToLeftIsSaidInTheDocument() {
    String text =
        new String(
            Written.bytes(
                SampleTreatments.base(), Audience.PATIENT, Form.FHIR, Locale.forLanguageTag("he")),
            java.nio.charset.StandardCharsets.UTF_8);
    assertThat(text).contains("\"language\": \"he\"").contains("dir=\\\"rtl\\\"");
  }

  private static void assertDocumentRules(Bundle bundle) {
    assertThat(bundle.getType()).isEqualTo(Bundle.BundleType.DOCUMENT);
    assertThat(bundle.getIdentifier().getValue()).isNotBlank();
    assertThat(bundle.getTimestampElement().getValueAsString()).isEqualTo("2026-07-20T00:00:00Z");
    Composition composition = composition(bundle);
    assertThat(composition.getSection())
        .isNotEmpty()
        .allMatch(each -> each.hasTitle() && each.getText().hasDiv());
    Set<String> urls = new HashSet<>();
    bundle.getEntry().forEach(each -> urls.add(each.getFullUrl()));
    List<Reference> references = new ArrayList<>(composition.getAuthor());
    references.add(composition.getCustodian());
    composition.getSection().forEach(section -> references.addAll(section.getEntry()));
    assertThat(references).allMatch(each -> urls.contains(each.getReference()));
  }

  /**
   * What makes a document invalid, and what the validator warns of in the document's own part. The
   * trade's rules and warnings about the rest are the record's, as in any other Bundle of it.
   */
  private static List<String> faults(Bundle bundle) {
    return JUDGE.validate(bundle).stream()
        .filter(issue -> issue.rule().startsWith("fhir-") || issue.rule().startsWith("guard-"))
        .filter(issue -> issue.weight().stops() || ownPart(issue))
        // The policy a consent names is an address, not an entry; the validator says so each time.
        .filter(issue -> !issue.text().contains("/policy/"))
        .map(Issue::toString)
        .toList();
  }

  private static boolean ownPart(Issue issue) {
    String at = String.valueOf(issue.expression());
    return !at.startsWith("Bundle.entry[") || at.startsWith("Bundle.entry[0]");
  }

  private static Composition composition(Bundle bundle) {
    return (Composition) bundle.getEntryFirstRep().getResource();
  }

  private static Bundle document(Treatment treatment, Audience audience) {
    return Written.SUMMARIES.document(treatment, Written.ON, audience);
  }

  private static String text(Bundle bundle) {
    return FhirContext.forR4Cached().newJsonParser().encodeResourceToString(bundle);
  }

  private static Set<String> numbers(Treatment treatment, Audience audience) {
    Map<String, Integer> counts =
        Written.numbers(Written.text(Written.narrative(treatment, audience)));
    return counts.keySet();
  }

  private static String main(String html) {
    return html.replaceAll("(?s)^.*<main>|</main>.*$", "");
  }

  /** All words of a page, those of its drawings too. */
  private static String everything(String html) {
    return html.replaceAll("(?s)<style>.*?</style>", " ").replaceAll("<[^>]+>", " ");
  }

  private static Treatment read(Path sample) throws Exception {
    ReadResult result = new TreatmentReader().read(Files.readAllBytes(sample));
    return ((ReadResult.Accepted) result).treatment();
  }
}
