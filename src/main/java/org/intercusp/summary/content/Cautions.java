package org.intercusp.summary.content;

import java.util.List;

/** The limits said aloud on every document for professionals. */
final class Cautions {

  static final List<String> PROFESSIONAL =
      List.of(
          "Decision support for licensed clinicians; the clinician decides. Local codes, licensed"
              + " practice and the laboratory's statement prevail.",
          "Limits without a named source are common practice of the trade. Computed values rest on"
              + " readings with an error of about half a millimetre.");

  private Cautions() {}
}
