package org.intercusp.exchange.courier;

import java.time.Duration;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.intercusp.exchange.wire.Deadline;

/**
 * Recipients that did not answer and are left alone by all deliveries for a while, so that they do
 * not fill the workers one after the other. On the clock that never jumps.
 */
final class Pauses {

  /** The longest pause after a recipient did not answer; common practice, no source. */
  private static final Duration LONGEST = Duration.ofMinutes(1);

  private final Map<String, Deadline> paused = new ConcurrentHashMap<>();

  /** How long it is still left alone, zero when it is not. */
  Duration left(String recipient) {
    Deadline end = paused.get(recipient);
    return end == null ? Duration.ZERO : end.left();
  }

  void begin(String recipient, Duration length) {
    paused.put(recipient, Deadline.in(length.compareTo(LONGEST) < 0 ? length : LONGEST));
  }

  void end(String recipient) {
    paused.remove(recipient);
  }
}
