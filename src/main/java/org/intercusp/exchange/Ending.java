package org.intercusp.exchange;

import java.time.Duration;
import org.jspecify.annotations.Nullable;

/**
 * How an attempt ended.
 *
 * @param retryAfter when the server asked to come again
 * @param difficulty what the call to the server came to; absent where none was made
 * @param conflict what a person has to decide on before it goes; absent where there is nothing
 */
record Ending(
    DeliveryState state,
    String reason,
    int status,
    String words,
    @Nullable DeliveryReport report,
    @Nullable Duration retryAfter,
    @Nullable Difficulty difficulty,
    DeliveryResult.@Nullable Conflicting conflict) {

  /** One without a conflict. */
  Ending(
      DeliveryState state,
      String reason,
      int status,
      String words,
      @Nullable DeliveryReport report,
      @Nullable Duration retryAfter,
      @Nullable Difficulty difficulty) {
    this(state, reason, status, words, report, retryAfter, difficulty, null);
  }

  /** Whether the recipient did not answer at all. */
  boolean isUnreached() {
    return difficulty == Difficulty.DOWN || difficulty == Difficulty.SLOW;
  }

  static Ending held(String reason) {
    return new Ending(DeliveryState.HELD, reason, 0, "", null, null, null);
  }

  static Ending held(DeliveryResult.Conflicting conflict, String reason) {
    return new Ending(DeliveryState.HELD, reason, 0, "", null, null, null, conflict);
  }

  /** Put off to a later day, as one that was not tried yet. */
  static Ending later(String reason, Duration until) {
    return new Ending(DeliveryState.QUEUED, reason, 0, "", null, until, null);
  }

  static Ending waiting(String reason) {
    return new Ending(DeliveryState.WAITING, reason, 0, "", null, null, null);
  }
}
