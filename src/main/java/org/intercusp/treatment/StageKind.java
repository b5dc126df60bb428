package org.intercusp.treatment;

/** Kind of treatment stage. */
public enum StageKind implements Coded {
  ACTIVE("active"),
  SUPPORT("support"),
  FIXED("fixed"),
  RETENTION("retention");

  private final String code;

  StageKind(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
