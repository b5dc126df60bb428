package org.intercusp.treatment;

/** Kind of removable appliance. */
public enum ApplianceType implements Coded {
  TWIN_BLOCK("twin-block"),
  ANTERIOR_INCLINED_PLANE("anterior-inclined-plane"),
  RETAINER("retainer");

  private final String code;

  ApplianceType(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
