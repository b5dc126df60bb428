package org.intercusp.treatment;

/** Administrative sex as recorded by the clinic. */
public enum Sex implements Coded {
  FEMALE("female"),
  MALE("male"),
  OTHER("other"),
  UNKNOWN("unknown");

  private final String code;

  Sex(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
