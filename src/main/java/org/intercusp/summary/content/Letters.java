package org.intercusp.summary.content;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * Says on a document that it lacks letters. Paper carries its own fonts, and no font has every
 * script: an allergy that is printed as signs must not be taken for what was written.
 */
public final class Letters {

  private static final String LACKING =
      "Some letters of this record cannot be printed here: each stands as #. Read them on the page"
          + " on the screen.";

  private Letters() {}

  /**
   * The document with a panel before all others where something in it can't be printed; else the
   * same.
   *
   * @param printable whether a text can be printed whole
   */
  public static Document told(Document document, Predicate<String> printable) {
    Stream<String> parts =
        document.panels().stream()
            .flatMap(panel -> panel.parts().stream())
            .flatMap(part -> part.texts().stream());
    if (Stream.concat(Stream.of(document.subtitle()), parts).allMatch(printable)) {
      return document;
    }
    boolean family = document.audience().equals("patient");
    PatientTexts texts = PatientTexts.in(Locale.forLanguageTag(document.language()));
    Panel said =
        Panel.wide(
            family ? texts.text("letters") : "Letters",
            new Part.Words(family ? texts.all("letters") : List.of(LACKING)));
    List<List<Panel>> rows = new ArrayList<>(document.rows());
    rows.add(0, List.of(said));
    return new Document(
        document.audience(),
        document.language(),
        document.direction(),
        document.title(),
        document.subtitle(),
        rows,
        document.cautions());
  }
}
