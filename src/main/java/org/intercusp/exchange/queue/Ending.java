package org.intercusp.exchange.queue;

import java.time.Duration;
import org.intercusp.exchange.records.DeliveryReport;
import org.intercusp.exchange.records.DeliveryResult;
import org.intercusp.exchange.wire.Difficulty;
import org.jspecify.annotations.Nullable;

/**
 * How an attempt ended.
 *
 * @param retryAfter when the server asked to come again
 * @param difficulty what the call to the server came to; absent where none was made
 * @param conflict what a person has to decide on before it goes; absent where there is nothing
 */
public record Ending(
    DeliveryState state,
    String reason,
    int status,
    String words,
    @Nullable DeliveryReport report,
    @Nullable Duration retryAfter,
    @Nullable Difficulty difficulty,
    DeliveryResult.@Nullable Conflicting conflict) {

  /** One without a conflict. */
  public Ending(
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
  public boolean isUnreached() {
    return difficulty == Difficulty.DOWN || difficulty == Difficulty.SLOW;
  }

  /** A person has to decide, for this reason. */
  public static Ending held(String reason) {
    return new Ending(DeliveryState.HELD, reason, 0, "", null, null, null);
  }

  /** A person has to decide on what the server's people changed or deleted. */
  public static Ending held(DeliveryResult.Conflicting conflict, String reason) {
    return new Ending(DeliveryState.HELD, reason, 0, "", null, null, null, conflict);
  }

  /** Put off to a later day, as one that was not tried yet. */
  public static Ending later(String reason, Duration until) {
    return new Ending(DeliveryState.QUEUED, reason, 0, "", null, until, null);
  }

  /** It is tried again by itself, for this reason. */
  public static Ending waiting(String reason) {
    return new Ending(DeliveryState.WAITING, reason, 0, "", null, null, null);
  }
}
