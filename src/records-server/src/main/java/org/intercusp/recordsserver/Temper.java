package org.intercusp.recordsserver;

import java.util.Locale;

/** How the server meets what is sent to it. */
enum Temper {
  /** Takes what parses, gives numbers as ids and lets a client choose its own. */
  PLAIN,
  /** Validates every write against base FHIR, gives UUIDs as ids and refuses ids from a client. */
  STRICT;

  static Temper of(String word) {
    for (Temper temper : values()) {
      if (temper.word().equals(word)) {
        return temper;
      }
    }
    throw new IllegalArgumentException("records.temper is plain or strict, not " + word);
  }

  String word() {
    return name().toLowerCase(Locale.ROOT);
  }
}
