package org.intercusp.treatment;

/** Whether a review was planned or came of a problem. */
public enum ReviewKind implements Coded {
  PLANNED("planned"),
  URGENT("urgent");

  private final String code;

  ReviewKind(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
