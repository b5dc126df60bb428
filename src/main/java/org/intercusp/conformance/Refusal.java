package org.intercusp.conformance;

import org.jspecify.annotations.Nullable;

/** Carries the first fault out of the guard's walk. It has no stack trace: it is an answer. */
final class Refusal extends Exception {

  /** As much of a value as is shown; common practice, no source. */
  private static final int SHOWN = 80;

  private final transient Issue issue;

  Refusal(
      GuardRule rule, String text, @Nullable String expression, @Nullable String value, Spot spot) {
    super(text, null, false, false);
    this.issue =
        new Issue(
            Weight.FATAL,
            rule.type(),
            rule.code(),
            text,
            expression,
            value == null ? null : shortened(value),
            spot.line(),
            spot.column());
  }

  Issue issue() {
    return issue;
  }

  private static String shortened(String value) {
    String whole = value.length() <= SHOWN ? value : value.substring(0, SHOWN) + "...";
    StringBuilder printable = new StringBuilder(whole.length());
    for (int i = 0; i < whole.length(); i++) {
      char c = whole.charAt(i);
      boolean shown = c >= ' ' && c != 0x7f && !Character.isSurrogate(c);
      printable.append(shown ? c : '\uFFFD');
    }
    return printable.toString();
  }
}
