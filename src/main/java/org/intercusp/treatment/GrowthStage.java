package org.intercusp.treatment;

/** Cervical vertebral maturation stage (Semin Orthod 2005;11:119-129). */
public enum GrowthStage implements Coded {
  CS1("CS1"),
  CS2("CS2"),
  CS3("CS3"),
  CS4("CS4"),
  CS5("CS5"),
  CS6("CS6");

  private final String code;

  GrowthStage(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
