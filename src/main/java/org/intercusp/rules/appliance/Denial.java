package org.intercusp.rules.appliance;

import java.util.regex.Pattern;

/**
 * The phrases by which a text says that a material is free of something. They are taken out of the
 * text before it is read, so that "nickel-free clasps, nickel bow" still names nickel.
 */
record Denial(Pattern phrases) {

  /** "X free of Y" says nothing against X. */
  private static final String FREE = "[- ]free\\b(?!\\s+(?:of|from)\\b)";

  private static final String WITHOUT = "\\b(?:no|non|not|without|free of|free from)[- ]+";

  /** Denials of whatever a pattern describes as a whole word. */
  static Denial of(String word) {
    return new Denial(Pattern.compile("(?:%s)%s|%s(?:%s)".formatted(word, FREE, WITHOUT, word)));
  }

  boolean isIn(String lower) {
    return phrases.matcher(lower).find();
  }

  String takenOutOf(String lower) {
    return phrases.matcher(lower).replaceAll(" ");
  }
}
