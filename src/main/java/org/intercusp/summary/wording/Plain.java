package org.intercusp.summary.wording;

import java.util.stream.Collectors;

/**
 * Text of a record as it may stand on a page: without control characters, without the characters
 * that change the direction of what follows (Unicode Standard Annex 9, explicit formatting), and
 * without what XML 1.0 does not allow. Nothing else is changed; markup is escaped where it is
 * written.
 */
public final class Plain {

  private Plain() {}

  public static String text(String text) {
    return text.codePoints()
        .map(each -> Character.isWhitespace(each) ? ' ' : each)
        .filter(Plain::shown)
        .mapToObj(Character::toString)
        .collect(Collectors.joining());
  }

  private static boolean shown(int letter) {
    boolean turnsText =
        letter == 0x061C
            || letter == 0x200E
            || letter == 0x200F
            || (letter >= 0x202A && letter <= 0x202E)
            || (letter >= 0x2066 && letter <= 0x2069);
    int type = Character.getType(letter);
    boolean allowed = type != Character.CONTROL && type != Character.SURROGATE;
    return allowed && !turnsText && letter != 0xFEFF && (letter & 0xFFFE) != 0xFFFE;
  }
}
