package org.intercusp.access;

/** What may be done to resources of a type, by the letters of SMART App Launch 2.2, scopes. */
public enum Interaction {
  CREATE('c'),
  READ('r'),
  UPDATE('u'),
  DELETE('d'),
  SEARCH('s');

  private final char letter;

  Interaction(char letter) {
    this.letter = letter;
  }

  /** Its letter in a scope. */
  public char letter() {
    return letter;
  }
}
