package org.intercusp.treatment;

/** How the gonion was found. */
public enum Gonion implements Coded {
  CONSTRUCTED("constructed"),
  ANATOMICAL("anatomical");

  private final String code;

  Gonion(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
