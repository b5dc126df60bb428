package org.intercusp.treatment;

/** Oral hygiene as judged at the chair. */
public enum Hygiene implements Coded {
  GOOD("good"),
  FAIR("fair"),
  POOR("poor");

  private final String code;

  Hygiene(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
