package org.intercusp.finding;

/** What every document and page says of its limits. */
public final class Caution {

  /** For professionals; families read the same in plain words. */
  public static final String TEXT =
      "Decision support for licensed clinicians; the clinician decides. Local codes, licensed"
          + " practice and the laboratory's statement prevail.";

  private Caution() {}
}
