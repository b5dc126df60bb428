package org.intercusp.exchange;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * How an attempt ended.
 *
 * @param retryAfter when the server asked to come again
 * @param difficulty what the call to the server came to; absent where none was made
 */
record Ending(
    DeliveryState state,
    String reason,
    int status,
    String words,
    @Nullable DeliveryReport report,
    @Nullable Duration retryAfter,
    @Nullable Difficulty difficulty) {

  /** Whether the recipient did not answer at all. */
  boolean isUnreached() {
    return difficulty == Difficulty.DOWN || difficulty == Difficulty.SLOW;
  }

  static Ending held(String reason) {
    return new Ending(DeliveryState.HELD, reason, 0, "", null, null, null);
  }

  /** Put off to a later day, as one that was not tried yet. */
  static Ending later(String reason, Duration until) {
    return new Ending(DeliveryState.QUEUED, reason, 0, "", null, until, null);
  }

  static Ending waiting(String reason) {
    return new Ending(DeliveryState.WAITING, reason, 0, "", null, null, null);
  }
}
