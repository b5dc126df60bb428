package org.intercusp.rules.appliance;

import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The phrases by which a text says that a material is free of something. They are taken out of the
 * text before it is read, so that "nickel-free clasps, nickel bow" still names nickel.
 */
record Denial(Pattern phrases) {

  /** "X free of Y" says nothing against X. */
  private static final String FREE = "[- ]free\\b(?!\\s+(?:of|from)\\b)";

  private static final String WITHOUT = "\\b(?:no|non|not|without|free of|free from)[- ]+";

  /** "Not nickel-free" and "almost nickel-free" deny nothing. */
  private static final String PLAINLY =
      "(?<!\\b(?:not(?: \\p{L}{1,20})?|almost|nearly|largely|virtually|practically)[- ])"
          + "(?<![\\p{L}-])";

  /** Denials of whatever a pattern describes as a whole word. */
  static Denial of(String word) {
    return new Denial(
        Pattern.compile(
            "%s(?:%s)%s|%s(?:%s)\\b(?!%s)".formatted(PLAINLY, word, FREE, WITHOUT, word, FREE)));
  }

  boolean isIn(String lower) {
    return phrases.matcher(lower).find();
  }

  String takenOutOf(String lower) {
    return phrases.matcher(lower).replaceAll(" ");
  }

  /**
   * What the denials of a text do not speak of, and that has to be read by itself.
   *
   * @param telling words that stand for a material of their own
   */
  String leaves(String lower, Pattern telling) {
    Undenied left = new Undenied(telling);
    for (String clause : Undenied.clauses(lower)) {
      Matcher denied = phrases.matcher(clause);
      if (denied.find()) {
        left.denied(
            clause.substring(0, denied.start()), takenOutOf(clause.substring(denied.end())));
      } else {
        left.plain(clause);
      }
    }
    return left.text();
  }
}
