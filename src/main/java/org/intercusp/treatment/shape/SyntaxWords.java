package org.intercusp.treatment.shape;

import tools.jackson.core.JacksonException;

/** What the JSON library says of a text, as whoever sent it can use it. */
public final class SyntaxWords {

  /** Settings of the library, and a place that it does not know. */
  private static final String INNER =
      "(, from|: enable) `[^`]*`( to allow)?| ?\\(start marker at \\[.*\\]\\)";

  private SyntaxWords() {}

  /** Without the names of settings that nobody who sends a text can set; may be empty. */
  public static String of(JacksonException fault) {
    String message = fault.getOriginalMessage();
    return message == null ? "" : message.replaceAll(INNER, "");
  }
}
