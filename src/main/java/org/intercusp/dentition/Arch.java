package org.intercusp.dentition;

/** A dental arch. */
public enum Arch {
  UPPER("upper"),
  LOWER("lower");

  private final String code;

  Arch(String code) {
    this.code = code;
  }

  public String code() {
    return code;
  }
}
