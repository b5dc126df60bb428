package org.intercusp.treatment;

/** Jaw position in which a film was taken. */
public enum JawPosition implements Coded {
  HABITUAL("habitual"),
  RETRUDED("retruded"),
  IN_BITE("in-bite");

  private final String code;

  JawPosition(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
