package org.intercusp.treatment;

/**
 * A traced point of a lateral film, by its usual abbreviation; the functional occlusal plane runs
 * from OPa in front to OPp behind.
 */
public enum Landmark implements Coded {
  S("S"),
  N("N"),
  A("A"),
  B("B"),
  POG("Pog"),
  GN("Gn"),
  ME("Me"),
  GO("Go"),
  CO("Co"),
  ANS("ANS"),
  PNS("PNS"),
  UI("Ui"),
  UIA("Uia"),
  LI("Li"),
  LIA("Lia"),
  OPA("OPa"),
  OPP("OPp"),
  U6("U6"),
  L6("L6"),
  U6D("U6d");

  private final String code;

  Landmark(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
