package org.intercusp.treatment.shape;

/** The bytes are no single JSON text within the limits of {@link JsonText}; says where and why. */
public final class NotJson extends Exception {

  private static final long serialVersionUID = 1L;

  private final boolean tooLarge;
  private final int line;
  private final int column;

  private NotJson(String why, boolean tooLarge, int line, int column) {
    super(why);
    this.tooLarge = tooLarge;
    this.line = line;
    this.column = column;
  }

  static NotJson malformed(String why, int line, int column) {
    return new NotJson(why, /* tooLarge= */ false, line, column);
  }

  static NotJson tooLarge(String why, int line, int column) {
    return new NotJson(why, /* tooLarge= */ true, line, column);
  }

  /** What is wrong, in words for a person. */
  public String why() {
    String message = getMessage();
    return message == null ? "" : message;
  }

  /** Whether it may be JSON but goes beyond a limit of size or depth. */
  public boolean isTooLarge() {
    return tooLarge;
  }

  /** Line, counted from 1; 0 where the place is not known. */
  public int line() {
    return line;
  }

  /** Column, counted from 1; 0 where the place is not known. */
  public int column() {
    return column;
  }
}
