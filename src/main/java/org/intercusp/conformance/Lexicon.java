package org.intercusp.conformance;

import java.util.Set;

/** Looks at single values as written: characters, and numbers without building them. */
final class Lexicon {

  /** No exponent of more digits is read: it is too large whatever its digits say. */
  private static final int EXPONENT_DIGITS = 9;

  /**
   * Elements that are decimals somewhere in R4: a parser builds a number of what stands there even
   * where it is written as a text. A test derives the list from the model.
   */
  static final Set<String> DECIMALS =
      Set.of(
          "add",
          "altitude",
          "amount",
          "answerDecimal",
          "backCurve",
          "conversionFactor",
          "cylinder",
          "defaultValueDecimal",
          "diameter",
          "duration",
          "durationMax",
          "fMeasure",
          "fScore",
          "factor",
          "factorOverride",
          "fixedDecimal",
          "from",
          "gtFP",
          "latitude",
          "level",
          "longitude",
          "lowerLimit",
          "maxValueDecimal",
          "minValueDecimal",
          "patternDecimal",
          "period",
          "periodMax",
          "points",
          "power",
          "precision",
          "probabilityDecimal",
          "queryFP",
          "queryTP",
          "recall",
          "relativeRisk",
          "score",
          "sensitivity",
          "sphere",
          "temperature",
          "to",
          "truthFN",
          "truthTP",
          "upperLimit",
          "value",
          "valueDecimal");

  private Lexicon() {}

  /** The index of the first character FHIR allows in no text, or -1. */
  static int firstForbidden(String text) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      if (c < ' ' && c != '\t' && c != '\n' && c != '\r') {
        return i;
      }
      if (Character.isSurrogate(c)) {
        boolean pair =
            Character.isHighSurrogate(c)
                && i + 1 < text.length()
                && Character.isLowSurrogate(text.charAt(i + 1));
        if (!pair) {
          return i;
        }
        i++;
      }
      if (c == 0xFFFE || c == 0xFFFF) {
        return i;
      }
    }
    return -1;
  }

  /**
   * Whether a parser would build a decimal of a text that stands in {@code name} of {@code parent}.
   */
  static boolean builtAsDecimal(String name, String parent) {
    if (!DECIMALS.contains(name)) {
      return false;
    }
    boolean identifier =
        parent.endsWith("dentifier") || parent.equals("telecom") || parent.equals("requisition");
    return !(name.equals("value") && identifier);
  }

  /** Whether the text is a number as a parser would build one, with or without an exponent. */
  static boolean number(String text) {
    return !text.isEmpty() && numeric(text, exponentAt(text));
  }

  /** Whether a number as written has a power of ten beyond {@code limit}, either sign. */
  static boolean exponentBeyond(String number, int limit) {
    int from = exponentAt(number) + 1;
    if (from >= number.length()) {
      return false;
    }
    if (number.charAt(from) == '+' || number.charAt(from) == '-') {
      from++;
    }
    while (from < number.length() - 1 && number.charAt(from) == '0') {
      from++;
    }
    int digits = number.length() - from;
    return digits > EXPONENT_DIGITS
        || (digits > 0 && Integer.parseInt(number.substring(from)) > limit);
  }

  /** The index of the exponent's letter; the length where there is none. */
  private static int exponentAt(String text) {
    int at = Math.max(text.indexOf('e'), text.indexOf('E'));
    return at < 0 ? text.length() : at;
  }

  private static boolean numeric(String text, int exponentAt) {
    for (int i = 0; i < text.length(); i++) {
      char c = text.charAt(i);
      boolean sign = (c == '-' || c == '+') && (i == 0 || i == exponentAt + 1);
      boolean point = c == '.' && i < exponentAt;
      if (!(c >= '0' && c <= '9') && !sign && !point && i != exponentAt) {
        return false;
      }
    }
    return true;
  }
}
