package org.intercusp.summary.content;

import java.util.List;
import org.intercusp.finding.Caution;

/** The limits said aloud on every document for professionals. */
final class Cautions {

  static final List<String> PROFESSIONAL =
      List.of(
          Caution.TEXT,
          "Limits without a named source are common practice of the trade. Computed values rest on"
              + " readings with an error of about half a millimetre.");

  private Cautions() {}
}
