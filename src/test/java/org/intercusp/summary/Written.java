package org.intercusp.summary;

import ca.uhn.fhir.context.FhirContext;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.hl7.fhir.r4.model.Composition;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.Treatment;

/** Documents of the tests, and what stands in them. */
final class Written {

  static final LocalDate ON = LocalDate.parse("2026-07-20");

  static final Summaries SUMMARIES =
      new Summaries(
          FhirContext.forR4Cached(), new TreatmentMapper(Canonicals.RESERVED), new Examiner());
  private static final Pattern NUMBER = Pattern.compile("\\d+(?:\\.\\d+)?");

  private Written() {}

  static byte[] bytes(Treatment treatment, Audience audience, Form form, Locale language) {
    Examination examination = new Examiner().examine(treatment, ON);
    return SUMMARIES.render(treatment, examination, ON, audience, form, language);
  }

  static String html(Treatment treatment, Audience audience) {
    return new String(
        bytes(treatment, audience, Form.HTML, Locale.ENGLISH), StandardCharsets.UTF_8);
  }

  static byte[] pdf(Treatment treatment, Audience audience) {
    return bytes(treatment, audience, Form.PDF, Locale.ENGLISH);
  }

  static String narrative(Treatment treatment, Audience audience) {
    Composition composition =
        (Composition) SUMMARIES.document(treatment, ON, audience).getEntryFirstRep().getResource();
    StringBuilder all = new StringBuilder(composition.getText().getDivAsString());
    composition
        .getSection()
        .forEach(
            section -> all.append(section.getTitle()).append(section.getText().getDivAsString()));
    return all.toString();
  }

  static int pages(byte[] pdf) throws IOException {
    try (PDDocument document = Loader.loadPDF(pdf)) {
      return document.getNumberOfPages();
    }
  }

  static String text(byte[] pdf) throws IOException {
    try (PDDocument document = Loader.loadPDF(pdf)) {
      return new PDFTextStripper().getText(document);
    }
  }

  /** What a reader of the page sees outside of drawings. */
  static String text(String html) {
    return html.replaceAll("(?s)<head>.*?</head>", "")
        .replaceAll("(?s)<svg.*?</svg>", " ")
        .replaceAll("<[^>]+>", " ")
        .replace("&#39;", "'")
        .replace("&amp;", "&");
  }

  /** How often each number stands in a text. */
  static Map<String, Integer> numbers(String text) {
    Map<String, Integer> counts = new TreeMap<>();
    NUMBER.matcher(text).results().forEach(m -> counts.merge(m.group(), 1, Integer::sum));
    return counts;
  }
}
