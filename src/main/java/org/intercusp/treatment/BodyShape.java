package org.intercusp.treatment;

/** Shape of a cervical vertebral body on a lateral film. */
public enum BodyShape implements Coded {
  TRAPEZOID("trapezoid"),
  HORIZONTAL("horizontal"),
  SQUARE("square"),
  VERTICAL("vertical");

  private final String code;

  BodyShape(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
