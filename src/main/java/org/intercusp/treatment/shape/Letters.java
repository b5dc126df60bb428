package org.intercusp.treatment.shape;

import java.time.LocalDate;
import java.time.YearMonth;

/**
 * What the commonest patterns of the schema say, without a regular expression: a load of a million
 * records asks some sixty times a record. A test holds each against its pattern.
 */
final class Letters {

  private static final String IN_NO_URI = " <>\"{}|\\^`";

  private Letters() {}

  /** One line without control characters that neither starts nor ends with a space. */
  static boolean isLine(String text) {
    for (int i = 0; i < text.length(); i++) {
      if (isControl(text.charAt(i))) {
        return false;
      }
    }
    return !text.isEmpty() && text.charAt(0) != ' ' && text.charAt(text.length() - 1) != ' ';
  }

  /** Letters and digits of ASCII, dots, hyphens and low lines, but not one or two dots alone. */
  static boolean isId(String text) {
    for (int i = 0; i < text.length(); i++) {
      char one = text.charAt(i);
      if (!isLetter(one) && !isDigit(one) && one != '.' && one != '-' && one != '_') {
        return false;
      }
    }
    return !text.isEmpty() && !text.equals(".") && !text.equals("..");
  }

  /** A scheme, a colon, and something without what RFC 3986 allows in no URI. */
  static boolean isUri(String text) {
    int colon = text.indexOf(':');
    if (colon < 1 || colon == text.length() - 1 || !isLetter(text.charAt(0))) {
      return false;
    }
    for (int i = 1; i < colon; i++) {
      char one = text.charAt(i);
      if (!isLetter(one) && !isDigit(one) && one != '+' && one != '.' && one != '-') {
        return false;
      }
    }
    for (int i = colon + 1; i < text.length(); i++) {
      char one = text.charAt(i);
      if (isControl(one) || IN_NO_URI.indexOf(one) >= 0) {
        return false;
      }
    }
    return true;
  }

  /** A date of the Gregorian calendar from 1900 to 2199, written YYYY-MM-DD. */
  static boolean isDate(String text) {
    if (text.length() != 10 || text.charAt(4) != '-' || text.charAt(7) != '-') {
      return false;
    }
    for (int i = 0; i < 10; i++) {
      if (i != 4 && i != 7 && !isDigit(text.charAt(i))) {
        return false;
      }
    }
    int year = number(text, 0, 4);
    int month = number(text, 5, 7);
    int day = number(text, 8, 10);
    boolean possible = year >= 1900 && year <= 2199 && month >= 1 && month <= 12 && day >= 1;
    return possible && (day <= 28 || day <= YearMonth.of(year, month).lengthOfMonth());
  }

  /** The date that a text {@linkplain #isDate is}. */
  static LocalDate date(String text) {
    return LocalDate.of(number(text, 0, 4), number(text, 5, 7), number(text, 8, 10));
  }

  private static boolean isControl(char one) {
    return one < ' ' || (one >= 0x7f && one <= 0x9f);
  }

  private static boolean isLetter(char one) {
    return (one >= 'a' && one <= 'z') || (one >= 'A' && one <= 'Z');
  }

  private static boolean isDigit(char one) {
    return one >= '0' && one <= '9';
  }

  private static int number(String text, int from, int to) {
    int number = 0;
    for (int i = from; i < to; i++) {
      number = 10 * number + text.charAt(i) - '0';
    }
    return number;
  }
}
