package org.intercusp.conformance;

/** What the guard says of a document. */
public sealed interface Admission {

  /**
   * It is bounded and well formed; a FHIR library may read it.
   *
   * @param text the document, decoded
   */
  record Admitted(String text) implements Admission {}

  /** It goes no further. The issue names the class of attack or fault, with line and column. */
  record Refused(Issue issue) implements Admission {}
}
