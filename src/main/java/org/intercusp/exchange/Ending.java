package org.intercusp.exchange;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * How an attempt ended.
 *
 * @param retryAfter when the server asked to come again
 */
record Ending(
    DeliveryState state,
    String reason,
    int status,
    String words,
    @Nullable DeliveryReport report,
    @Nullable Duration retryAfter) {

  static Ending held(String reason) {
    return new Ending(DeliveryState.HELD, reason, 0, "", null, null);
  }

  static Ending waiting(String reason) {
    return new Ending(DeliveryState.WAITING, reason, 0, "", null, null);
  }
}
