package org.intercusp.exchange.recipient;

import java.time.Duration;
import org.intercusp.exchange.wire.Target;
import org.intercusp.treatment.ConsentScope;
import org.jspecify.annotations.Nullable;

/**
 * Who treatments may be delivered to.
 *
 * @param name what scripts call it
 * @param title what people call it
 * @param target its records server
 * @param scope what the patient's consent must cover
 * @param pollEvery how often it is asked what its people changed; absent where it never is
 */
public record Recipient(
    String name, String title, Target target, ConsentScope scope, @Nullable Duration pollEvery) {

  public Recipient {
    if (!name.matches("[a-z0-9][a-z0-9-]{0,63}")) {
      throw new IllegalArgumentException(
          "a recipient's name has lower-case letters, digits and hyphens: " + name);
    }
    if (pollEvery != null && (pollEvery.isNegative() || pollEvery.isZero())) {
      throw new IllegalArgumentException("poll-every is more than nothing");
    }
  }

  /** One that is never asked for changes. */
  public Recipient(String name, String title, Target target, ConsentScope scope) {
    this(name, title, target, scope, null);
  }
}
