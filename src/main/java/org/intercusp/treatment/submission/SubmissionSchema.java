package org.intercusp.treatment.submission;

import org.intercusp.treatment.shape.SchemaPage;

/**
 * The JSON Schema (2020-12) of the outcome record, made from the same description that the reader
 * follows; published as {@code /schema/outcome-1.json} in the jar. Beyond it stand the limits of
 * size, members that stand twice, and the rules whose codes begin with {@code record-}.
 */
final class SubmissionSchema {

  public static final String ID = "https://intercusp.example/schema/outcome-1.json";

  private SubmissionSchema() {}

  /** The schema as text, indented, with a line end at its end. */
  public static String text() {
    return SchemaPage.text(
        SubmissionFormat.SUBMISSION,
        ID,
        "Intercusp outcome record, version 1",
        "What a clinic submits to a registry about one treatment, one a line. A record"
            + " with the same submitter and submission replaces the one before.");
  }
}
