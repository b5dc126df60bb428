package org.intercusp.treatment;

/** Tenderness on trying to retract the jaw, a practical sign of wear; it is not joint pain. */
public enum Tenderness implements Coded {
  PRESENT("present"),
  ABSENT("absent");

  private final String code;

  Tenderness(String code) {
    this.code = code;
  }

  @Override
  public String code() {
    return code;
  }
}
