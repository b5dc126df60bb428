package org.intercusp.summary;

/** Who a document is for. */
public enum Audience {
  DENTIST("dentist"),
  LABORATORY("laboratory"),
  PATIENT("patient");

  private final String code;

  Audience(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }
}
