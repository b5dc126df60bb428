package org.intercusp.summary;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.intercusp.fhir.DocumentFrame;
import org.intercusp.fhir.DocumentFrame.Holds;
import org.intercusp.fhir.DocumentGroup;
import org.intercusp.summary.content.Document;
import org.intercusp.summary.content.Panel;
import org.intercusp.summary.content.Part;
import org.intercusp.summary.paper.Page;

/** The content of a document as the frame of a FHIR document. */
final class FhirDocument {

  /** What of the record stands behind a panel of the dentist's summary; the rest comes last. */
  private static final Map<String, Set<DocumentGroup>> BEHIND =
      Map.of(
          "Sign of harm", Set.of(DocumentGroup.HARM),
          "Diagnosis", Set.of(DocumentGroup.DIAGNOSIS),
          "Appliance", Set.of(DocumentGroup.BITES, DocumentGroup.APPLIANCES),
          "What to watch", Set.of(DocumentGroup.HARM, DocumentGroup.FINDINGS),
          "Stages", Set.of(DocumentGroup.PLAN),
          "Progress", Set.of(DocumentGroup.REVIEWS),
          "Outcome indices", Set.of(DocumentGroup.OUTCOME),
          "Contacts", Set.of(DocumentGroup.PEOPLE));

  private final Page page;

  FhirDocument(Page page) {
    this.page = page;
  }

  DocumentFrame frame(Document document, Audience audience) {
    List<DocumentFrame.Section> sections = new ArrayList<>();
    for (Panel panel : document.panels()) {
      sections.add(section(panel, document));
    }
    Panel whole =
        new Panel(
            document.title(),
            6,
            List.of(
                new Part.Words(List.of(document.title(), document.subtitle())),
                new Part.Words(document.cautions())));
    return new DocumentFrame(
        audience.code(),
        document.title(),
        document.language(),
        page.narrative(whole, document),
        sections,
        holds(audience));
  }

  private DocumentFrame.Section section(Panel panel, Document document) {
    return new DocumentFrame.Section(
        panel.title(),
        page.narrative(panel, document),
        BEHIND.getOrDefault(panel.title(), Set.of()));
  }

  private static Holds holds(Audience audience) {
    return switch (audience) {
      case DENTIST -> Holds.RECORD;
      case LABORATORY -> Holds.PRESCRIBER;
      case PATIENT -> Holds.PEOPLE;
    };
  }
}
