package org.intercusp.summary;

import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import org.intercusp.rules.Examination;
import org.intercusp.summary.content.DentistSummary;
import org.intercusp.summary.content.Document;
import org.intercusp.summary.content.LaboratorySheet;
import org.intercusp.summary.content.NextVisit;
import org.intercusp.summary.content.Part;
import org.intercusp.summary.content.PatientSheet;
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
    Document document = document(treatment, examination, on, audience, language);
    return switch (form) {
      case HTML -> page.html(document).getBytes(StandardCharsets.UTF_8);
      case PDF -> paper.pdf(page.forPaper(document));
    };
  }

  /** The sections of a document for a FHIR Composition. */
  public List<Section> sections(
      Treatment treatment,
      Examination examination,
      LocalDate on,
      Audience audience,
      Locale language) {
    return document(treatment, examination, on, audience, language).panels().stream()
        .map(panel -> new Section(panel.title(), page.narrative(panel)))
        .toList();
  }

  /** The card for the next visit, labels with values; empty once treatment has ended. */
  public List<Part.Field> nextVisit(Treatment treatment, LocalDate on) {
    return NextVisit.of(treatment, on);
  }

  /** The content security policy that a door sends with an HTML document. */
  public String contentSecurityPolicy() {
    return page.contentSecurityPolicy();
  }

  private static Document document(
      Treatment treatment,
      Examination examination,
      LocalDate on,
      Audience audience,
      Locale language) {
    return switch (audience) {
      case DENTIST -> DentistSummary.of(treatment, examination, on);
      case LABORATORY -> LaboratorySheet.of(treatment, on);
      case PATIENT -> PatientSheet.of(treatment, on, language);
    };
  }
}
