package org.intercusp.web.api;

import java.nio.charset.StandardCharsets;
import java.util.Base64;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.treatment.Identifier;
import org.springframework.http.HttpStatus;

/** Where a page of a list ended, as a caller hands it back: opaque, and never trusted. */
final class Cursor {

  private static final String BREAK = "\n";

  private Cursor() {}

  static String write(TreatmentKey key) {
    String text = String.join(BREAK, key.clinic().system(), key.clinic().value(), key.treatment());
    return Base64.getUrlEncoder()
        .withoutPadding()
        .encodeToString(text.getBytes(StandardCharsets.UTF_8));
  }

  static TreatmentKey read(String text) {
    try {
      String plain = new String(Base64.getUrlDecoder().decode(text), StandardCharsets.UTF_8);
      String[] parts = plain.split(BREAK, -1);
      if (parts.length == 3) {
        return new TreatmentKey(new Identifier(parts[0], parts[1]), parts[2]);
      }
    } catch (IllegalArgumentException e) {
      // falls through to the refusal
    }
    throw Problem.of(HttpStatus.BAD_REQUEST, "after is not a place in this list.");
  }
}
