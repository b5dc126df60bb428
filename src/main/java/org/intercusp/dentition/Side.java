package org.intercusp.dentition;

/** A side of the mouth, always the patient's own right or left. */
public enum Side {
  RIGHT("right"),
  LEFT("left");

  private final String code;

  Side(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }
}
