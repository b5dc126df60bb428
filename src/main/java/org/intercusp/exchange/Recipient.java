package org.intercusp.exchange;

import org.intercusp.treatment.ConsentScope;

/**
 * Who treatments may be delivered to.
 *
 * @param name what scripts call it
 * @param title what people call it
 * @param target its records server
 * @param scope what the patient's consent must cover
 */
public record Recipient(String name, String title, Target target, ConsentScope scope) {

  public Recipient {
    if (!name.matches("[a-z0-9][a-z0-9-]{0,63}")) {
      throw new IllegalArgumentException(
          "a recipient's name has lower-case letters, digits and hyphens: " + name);
    }
  }
}
