package org.intercusp.treatment;

import org.intercusp.treatment.shape.SchemaPage;

/**
 * The JSON Schema (2020-12) of the treatment file, made from the same description that the reader
 * follows; published as {@code /schema/treatment-1.json} in the jar. Four things it cannot say, and
 * the reader checks beyond it: that a text is one JSON text within the limits of size, that no
 * member stands twice, that ids are unique and references lead somewhere, and that the total of a
 * questionnaire lies between its least and its most.
 */
public final class TreatmentSchema {

  public static final String ID = "https://intercusp.example/schema/treatment-1.json";

  private TreatmentSchema() {}

  /** The schema as text, indented, with a line end at its end. */
  public static String text() {
    return SchemaPage.text(
        TreatmentFormat.TREATMENT,
        ID,
        "Intercusp treatment file, version 1",
        "One patient treatment with removable functional appliances. Ids are unique in"
            + " their list and references lead to one of them; no member stands twice.");
  }
}
