package org.intercusp.conformance;

/**
 * How much an issue weighs, in the words of FHIR's issue severity: {@code fatal} when the document
 * could not be read at all, {@code error} when it must not be used.
 */
public enum Weight {
  FATAL("fatal"),
  ERROR("error"),
  WARNING("warning"),
  INFORMATION("information");

  private final String code;

  Weight(String code) {
    this.code = code;
  }

  /** The code of {@code http://hl7.org/fhir/issue-severity}. */
  public String code() {
    return code;
  }

  /** Whether a document with such an issue is refused. */
  public boolean stops() {
    return this == FATAL || this == ERROR;
  }
}
