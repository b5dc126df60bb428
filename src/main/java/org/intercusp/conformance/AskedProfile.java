package org.intercusp.conformance;

import org.jspecify.annotations.Nullable;

/**
 * A profile that whoever asks wants a resource judged by, whatever it claims itself.
 *
 * @param url its canonical, with or without a version behind a bar
 * @param expression the FHIRPath of where it was named; absent where that was no document
 * @param line from 1; absent likewise
 * @param column from 1; absent likewise
 */
public record AskedProfile(
    String url, @Nullable String expression, @Nullable Integer line, @Nullable Integer column) {

  /** One that was named beside the document. */
  public static AskedProfile of(String url) {
    return new AskedProfile(url, null, null, null);
  }

  /** Nothing can be judged by what is not held, and silence would read as consent. */
  Issue unknown() {
    return new Issue(
        Weight.ERROR,
        "not-found",
        FhirRule.UNKNOWN_PROFILE.code(),
        "The profile '%s' is not held here, so nothing was judged by it.".formatted(url),
        expression,
        url,
        line,
        column);
  }
}
