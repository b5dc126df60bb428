package org.intercusp.fhir;

import java.util.List;
import java.util.Set;

/**
 * What a document says in words, to be bound with the record it was written from.
 *
 * @param name one word that tells documents of one treatment apart
 * @param title what the document is
 * @param language BCP 47 tag
 * @param narrative of the document as a whole, an XHTML {@code div}
 * @param holds how much of the record its reader may have
 */
public record DocumentFrame(
    String name,
    String title,
    String language,
    String narrative,
    List<Section> sections,
    Holds holds) {

  public DocumentFrame {
    sections = List.copyOf(sections);
  }

  /**
   * One section.
   *
   * @param narrative an XHTML {@code div}
   * @param groups of the record that stand behind it
   */
  public record Section(String title, String narrative, Set<DocumentGroup> groups) {
    public Section {
      groups = Set.copyOf(groups);
    }
  }

  /** How much of a record a document holds beside its words. */
  public enum Holds {
    /** Everything, in the sections and a last one for the rest. */
    RECORD,
    /** The patient, the clinician and the clinic. */
    PEOPLE,
    /** The clinician and the clinic; the patient is known by number alone. */
    PRESCRIBER
  }
}
