package org.intercusp.treatment;

import java.util.Optional;

/** A business identifier: a naming system (a URI) and the value in it. */
public record Identifier(String system, String value) {

  /**
   * Reads {@code SYSTEM|VALUE}; the first bar divides them, since a URI has none (RFC 3986). Empty
   * where it is not written so.
   */
  public static Optional<Identifier> parse(String systemAndValue) {
    int bar = systemAndValue.indexOf('|');
    return bar < 1 || bar == systemAndValue.length() - 1
        ? Optional.empty()
        : Optional.of(
            new Identifier(systemAndValue.substring(0, bar), systemAndValue.substring(bar + 1)));
  }
}
