package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.StringReader;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.summary.content.NextVisit;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.verapdf.gf.foundry.VeraGreenfieldFoundryProvider;
import org.verapdf.pdfa.Foundries;
import org.verapdf.pdfa.PDFAParser;
import org.verapdf.pdfa.PDFAValidator;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import org.verapdf.pdfa.results.TestAssertion;
import org.verapdf.pdfa.results.ValidationResult;
import org.xml.sax.InputSource;

class SummariesTest {

  private static final String CHANGED_LITTLE = "{}";

  @BeforeAll
  static void checker() {
    VeraGreenfieldFoundryProvider.initialise();
  }

  @ParameterizedTest
  @EnumSource(Audience.class)
  void nothingOfARecordBecomesMarkupOrRuns(Audience audience) throws Exception {
    String html = Written.html(OddTreatments.hostile(), audience);
    assertThat(html)
        .doesNotContain("<script")
        .doesNotContain("<img")
        .doesNotContain("onload='x")
        .doesNotContain("\u202E")
        .contains("default-src 'none'".replace("'", "&#39;"));
    assertThat(Written.narrative(OddTreatments.hostile(), audience))
        .doesNotContain("<script")
        .doesNotContain("<img")
        .doesNotContain("<svg")
        .doesNotContain("<bdi")
        .doesNotContain("\u202E");
    if (audience != Audience.LABORATORY) {
      assertThat(html).contains("&lt;script&gt;alert(1)&lt;/script&gt;${7*7}");
    }
    DocumentBuilderFactory.newInstance()
        .newDocumentBuilder()
        .parse(new InputSource(new StringReader(html.replace("<!DOCTYPE html>", ""))));
    try (PDDocument pdf = Loader.loadPDF(Written.pdf(OddTreatments.hostile(), audience))) {
      assertThat(pdf.getDocumentCatalog().getOpenAction()).isNull();
      assertThat(pdf.getDocumentCatalog().getNames()).isNull();
      assertThat(pdf.getNumberOfPages()).isLessThanOrEqualTo(2);
    }
  }

  @ParameterizedTest
  @EnumSource(Audience.class)
  void pageOnlyNamesItself(Audience audience) {
    String html = Written.html(SampleTreatments.base(), audience);
    assertThat(html).doesNotContainPattern("(?i)\\s(src|href|style)=");
    assertThat(html.replace("http://www.w3.org/", "")).doesNotContain("://");
  }

  @Test
  void longNamesAreWholeOnPaperAndInsideIt() throws Exception {
    byte[] pdf = Written.pdf(OddTreatments.hostile(), Audience.PATIENT);
    assertThat(Written.text(pdf).replaceAll("\\s", "")).contains(OddTreatments.LONG);
    try (PDDocument document = Loader.loadPDF(pdf)) {
      Edge edge = new Edge();
      edge.getText(document);
      assertThat(edge.right()).isLessThan(document.getPage(0).getMediaBox().getWidth() - 28);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {CHANGED_LITTLE, OddTreatments.NO_REVIEWS, OddTreatments.BARE})
  void isOnePageTaggedAndArchivable(String changes) throws Exception {
    for (Audience audience : Audience.values()) {
      byte[] pdf = Written.pdf(SampleTreatments.changed(changes), audience);
      assertThat(Written.pages(pdf)).isEqualTo(1);
      assertThat(faults(pdf, PDFAFlavour.PDFA_2_A)).isEmpty();
      assertThat(faults(pdf, PDFAFlavour.PDFUA_1)).isEmpty();
    }
  }

  @Test
  void hostileRecordsAndOtherScriptsAreArchivableToo() throws Exception {
    assertThat(faults(Written.pdf(OddTreatments.hostile(), Audience.DENTIST), PDFAFlavour.PDFA_2_A))
        .isEmpty();
    Treatment scripts =
        SampleTreatments.changed(
            "{\"/patient/family\": \"\\u05dc\\u05d5\\u05d9 \\u0645\\u062d\\u0645\\u062f"
                + " \\u5f20 \\ud83e\\uddb7\"}");
    byte[] pdf = Written.bytes(scripts, Audience.PATIENT, Form.PDF, Locale.forLanguageTag("he"));
    assertThat(faults(pdf, PDFAFlavour.PDFA_2_A)).isEmpty();
  }

  private static List<String> faults(byte[] pdf, PDFAFlavour flavour) throws Exception {
    try (PDFAParser parser =
            Foundries.defaultInstance().createParser(new ByteArrayInputStream(pdf), flavour);
        PDFAValidator validator = Foundries.defaultInstance().createValidator(flavour, false)) {
      ValidationResult result = validator.validate(parser);
      return result.getTestAssertions().stream()
          .filter(each -> each.getStatus() == TestAssertion.Status.FAILED)
          .map(each -> each.getRuleId().getClause() + " " + each.getMessage())
          .distinct()
          .toList();
    }
  }

  @Test
  void sixtyReviewsWithHarmStillFitOnOnePage() throws Exception {
    for (Audience audience : Audience.values()) {
      assertThat(Written.pages(Written.pdf(OddTreatments.sixtyReviews(), audience))).isEqualTo(1);
    }
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        CHANGED_LITTLE,
        OddTreatments.NO_REVIEWS,
        OddTreatments.BARE,
        "{\"/diagnosis/overjet\": 8.25, \"/reviews/3/overjet\": 4.75}",
        "{\"/appliances/0/clasps/0/wire\": 0.65, \"/appliances/0/inclineAngle\": 62.5}"
      })
  void pagePaperAndNarrativeSayTheSameNumbers(String changes) throws Exception {
    Treatment treatment = SampleTreatments.changed(changes);
    for (Audience audience : Audience.values()) {
      Map<String, Integer> onPage =
          Written.numbers(Written.text(Written.html(treatment, audience)));
      String paper = Written.text(Written.pdf(treatment, audience));
      Map<String, Integer> onPaper = Written.numbers(paper);
      assertThat(onPage).isNotEmpty();
      assertThat(onPaper.keySet()).containsAll(onPage.keySet());
      onPage.forEach(
          (number, count) ->
              assertThat(onPaper.get(number)).as(number).isGreaterThanOrEqualTo(count));
      String main = Written.html(treatment, audience).replaceAll("(?s)^.*<main>|</main>.*$", "");
      assertThat(Written.numbers(Written.text(Written.narrative(treatment, audience))).keySet())
          .containsAll(Written.numbers(Written.text(main)).keySet());
    }
  }

  @Test
  void theDentistReadsWhatMatters() {
    String text = Written.text(Written.html(SampleTreatments.base(), Audience.DENTIST));
    assertThat(text)
        .contains("Robin Fairweather", "class II/1", "twin block", "4.5 mm, 3 mm", "2026-08-24")
        .contains("When to refer back", "opening 47 mm", "the clinician decides");
  }

  @Test
  void theDentistReadsTheLastHygieneAndOpeningThatWereRecorded() {
    Treatment treatment =
        SampleTreatments.changed(
            "{\"/reviews/1/hygiene\": \"poor\", \"/reviews/2/maximumOpening\": 33,"
                + " \"/reviews/3/maximumOpening\": null}");
    assertThat(Written.text(Written.html(treatment, Audience.DENTIST)))
        .contains("Hygiene: poor", "opening 33 mm");
  }

  @Test
  void aSignOfHarmComesFirst() {
    String html = Written.html(OddTreatments.sixtyReviews(), Audience.DENTIST);
    assertThat(html.indexOf("Sign of harm")).isBetween(0, html.indexOf(">Patient<"));
    assertThat(Written.html(SampleTreatments.base(), Audience.DENTIST))
        .doesNotContain("Sign of harm");
  }

  @Test
  void nothingIsMadeUpWhereNothingIsRecorded() {
    String text =
        Written.text(Written.html(SampleTreatments.changed(OddTreatments.BARE), Audience.DENTIST));
    assertThat(text).contains("Hygiene: not recorded", "Allergy: not recorded", "none yet");
  }

  @Test
  void theLaboratoryKnowsThePatientByCodeAlone() throws Exception {
    Treatment base = SampleTreatments.base();
    String html = Written.html(base, Audience.LABORATORY);
    String paper = Written.text(Written.pdf(base, Audience.LABORATORY));
    for (String each : List.of(html, paper)) {
      assertThat(each).contains("HL-2100").doesNotContain("Fairweather").doesNotContain("Robin");
    }
    assertThat(Written.text(html))
        .contains("sole use", "Ada Winterbourne", "heat-cured acrylic", "stainless steel")
        .contains("general safety and performance requirements", "Batch", "Kept for")
        .contains("Measured on the articulated models before processing", "Within 0.5 mm")
        .contains("70°", "5.5 mm", "delta", "0.7 mm", "upper right");
  }

  @Test
  void theLaboratorySheetIsBlackAndWhite() {
    String html = Written.html(SampleTreatments.base(), Audience.LABORATORY);
    List<String> colours =
        Pattern.compile("(?:fill|stroke)=\"#([0-9a-f]{6})\"")
            .matcher(html)
            .results()
            .map((MatchResult match) -> match.group(1))
            .distinct()
            .toList();
    assertThat(colours)
        .isNotEmpty()
        .allSatisfy(
            each ->
                assertThat(each.substring(0, 2))
                    .isEqualTo(each.substring(2, 4))
                    .isEqualTo(each.substring(4, 6)));
  }

  @Test
  void thePatientReadsHoursVisitAndEmergency() {
    String text = Written.text(Written.html(SampleTreatments.base(), Audience.PATIENT));
    assertThat(text)
        .contains("22 hours a day", "24 August 2026", "call 112 now", "all day and all night");
    String nights =
        Written.text(
            Written.html(
                SampleTreatments.changed("{\"/stages/0/wearHours\": 10}"), Audience.PATIENT));
    assertThat(nights).contains("10 hours each day").doesNotContain("all day and all night");
  }

  @Test
  void aLatePatientGoesOnWearingWhatTheLastReviewAskedFor() {
    Treatment late =
        SampleTreatments.changed(
            "{\"/stages/0/startsOn\": \"2025-03-01\", \"/appliances/0/fittedOn\": \"2025-03-01\","
                + " \"/stages/2/wearHours\": 10}");
    assertThat(Written.text(Written.html(late, Audience.PATIENT)))
        .contains("22 hours a day")
        .doesNotContain("10 hours");
  }

  @Test
  void aLanguageFromRightToLeftTurnsThePage() {
    String html =
        new String(
            Written.bytes(
                SampleTreatments.base(), Audience.PATIENT, Form.HTML, Locale.forLanguageTag("he")),
            java.nio.charset.StandardCharsets.UTF_8);
    assertThat(html).contains("dir=\"rtl\"").contains("lang=\"he\"").contains("\u05d2\u05e9\u05e8");
    assertThat(Written.html(SampleTreatments.base(), Audience.PATIENT)).contains("dir=\"ltr\"");
  }

  @Test
  void theCardForTheNextVisitSaysWhatToDo() {
    assertThat(
            NextVisit.of(
                SampleTreatments.base(),
                new Examiner().examine(SampleTreatments.base(), Written.ON)))
        .anySatisfy(
            field -> {
              assertThat(field.label()).isEqualTo("Trim");
              assertThat(field.value()).startsWith("0.5 mm").contains("never the incline");
            })
        .anySatisfy(field -> assertThat(field.value()).startsWith("about 4.8 mm"));
  }

  @Test
  void thePolicyNamesTheStyleSheetOfThePage() throws Exception {
    String html = Written.html(SampleTreatments.base(), Audience.DENTIST);
    String style = html.substring(html.indexOf("<style>") + 7, html.indexOf("</style>"));
    byte[] digest =
        java.security.MessageDigest.getInstance("SHA-256")
            .digest(style.getBytes(java.nio.charset.StandardCharsets.UTF_8));
    assertThat(Written.SUMMARIES.contentSecurityPolicy())
        .contains("'sha256-" + java.util.Base64.getEncoder().encodeToString(digest) + "'");
  }
}
