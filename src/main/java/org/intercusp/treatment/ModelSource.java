package org.intercusp.treatment;

/** What study models were measured on. */
public enum ModelSource implements Coded {
  PLASTER("plaster"),
  SCAN("scan");

  private final String code;

  ModelSource(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
