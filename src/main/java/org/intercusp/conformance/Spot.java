package org.intercusp.conformance;

/** A place in a text, both counted from 1, the column in characters. */
record Spot(int line, int column) {

  static final Spot START = new Spot(1, 1);

  /** What a reader tells, which counts from 0 or not at all before the first character. */
  static Spot at(int line, int column) {
    return new Spot(Math.max(1, line), Math.max(1, column));
  }

  /** The place of the character at {@code offset} of {@code text}. */
  static Spot of(CharSequence text, int offset) {
    int line = 1;
    int column = 1;
    for (int i = 0; i < offset; i++) {
      if (text.charAt(i) == '\n') {
        line++;
        column = 1;
      } else {
        column++;
      }
    }
    return new Spot(line, column);
  }
}
