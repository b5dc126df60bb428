package org.intercusp.summary;

import ca.uhn.fhir.context.FhirContext;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.summary.content.DentistSummary;
import org.intercusp.summary.content.Document;
import org.intercusp.summary.content.LaboratorySheet;
import org.intercusp.summary.content.Letters;
import org.intercusp.summary.content.PatientSheet;
import org.intercusp.summary.content.PatientTexts;
import org.intercusp.summary.paper.Page;
import org.intercusp.summary.paper.Paper;
import org.intercusp.treatment.Treatment;

/**
 * Writes the documents of a treatment. Page, paper and narrative come of one content, so they can't
 * disagree. Nothing is fetched from anywhere and nothing in a record becomes markup.
 */
public final class Summaries {

  private final Page page = new Page();
  private final Paper paper = new Paper();
  private final FhirDocument fhir = new FhirDocument(page);
  private final FhirContext context;
  private final TreatmentMapper mapper;
  private final Examiner examiner;

  public Summaries(FhirContext context, TreatmentMapper mapper, Examiner examiner) {
    this.context = context;
    this.mapper = mapper;
    this.examiner = examiner;
  }

  /** Whether the document for somebody is written in a language, whatever its region. */
  public static boolean areIn(Locale language, Audience audience) {
    return audience == Audience.PATIENT
        ? PatientTexts.areIn(language)
        : language.getLanguage().equals(Locale.ENGLISH.getLanguage());
  }

  /** The document in English. */
  public byte[] render(
      Treatment treatment, Examination examination, LocalDate on, Audience audience, Form form) {
    return render(treatment, examination, on, audience, form, Locale.ENGLISH);
  }

  /**
   * The document.
   *
   * @param examination of the treatment on that day
   * @param language of the patient's sheet; the others are in English
   */
  public byte[] render(
      Treatment treatment,
      Examination examination,
      LocalDate on,
      Audience audience,
      Form form,
      Locale language) {
    Document document = content(treatment, examination, on, audience, language);
    return switch (form) {
      case HTML -> page.html(document).getBytes(StandardCharsets.UTF_8);
      case PDF -> paper.pdf(page.forPaper(Letters.told(document, paper::prints)));
      case FHIR ->
          context
              .newJsonParser()
              .setPrettyPrint(true)
              .encodeResourceToString(bundle(treatment, examination, on, audience, document))
              .getBytes(StandardCharsets.UTF_8);
    };
  }

  /**
   * The document in English as a FHIR document Bundle: a Composition first, whose sections say what
   * page and paper say. The dentist's holds the whole record; the patient's the patient, clinician
   * and clinic; the laboratory's clinician and clinic, the patient by number alone.
   */
  public Bundle document(Treatment treatment, LocalDate on, Audience audience) {
    Examination examination = examiner.examine(treatment, on);
    Document document = content(treatment, examination, on, audience, Locale.ENGLISH);
    return bundle(treatment, examination, on, audience, document);
  }

  private Bundle bundle(
      Treatment treatment,
      Examination examination,
      LocalDate on,
      Audience audience,
      Document document) {
    List<Finding> findings = examination.plainFindings();
    return mapper.toDocument(treatment, on, findings, fhir.frame(document, audience));
  }

  /** The content security policy that a door sends with an HTML document. */
  public String contentSecurityPolicy() {
    return page.contentSecurityPolicy();
  }

  private static Document content(
      Treatment treatment,
      Examination examination,
      LocalDate on,
      Audience audience,
      Locale language) {
    return switch (audience) {
      case DENTIST -> DentistSummary.of(treatment, examination, on);
      case LABORATORY -> LaboratorySheet.of(treatment, examination, on);
      case PATIENT -> PatientSheet.of(treatment, examination, on, language);
    };
  }
}
