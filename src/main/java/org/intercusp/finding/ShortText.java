package org.intercusp.finding;

/** Texts that are cut where there is no room for more. */
public final class ShortText {

  private ShortText() {}

  /**
   * At most so many characters of a text. A character of two code units is left out whole: half of
   * one has no UTF-8, and in JSON it is an escape that strict readers refuse.
   */
  public static String cut(String text, int most) {
    if (text.length() <= most) {
      return text;
    }
    int end = Character.isHighSurrogate(text.charAt(most - 1)) ? most - 1 : most;
    return text.substring(0, end);
  }

  /** The same, with dots behind it where something was cut off. */
  public static String shown(String text, int most) {
    return text.length() <= most ? text : cut(text, most) + "...";
  }
}
