package org.intercusp.treatment;

/** Whether the lips close without effort at rest. */
public enum Lips implements Coded {
  COMPETENT("competent"),
  INCOMPETENT("incompetent");

  private final String code;

  Lips(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
