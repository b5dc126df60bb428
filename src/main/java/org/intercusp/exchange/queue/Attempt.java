package org.intercusp.exchange.queue;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.intercusp.exchange.records.DeliveryReport;
import org.jspecify.annotations.Nullable;

/**
 * One try of a delivery.
 *
 * @param number from 1
 * @param endedAt absent while it is under way, or when whoever tried came to an end first
 * @param outcome the state it led to; {@code UNDER_WAY} where nobody knows
 * @param reason one sentence for a person
 * @param status the server's HTTP status, 0 where there was none
 * @param words the server's own words
 * @param report what the server then held, where it was delivered
 */
public record Attempt(
    int number,
    Instant startedAt,
    @Nullable Instant endedAt,
    DeliveryState outcome,
    String reason,
    int status,
    String words,
    @Nullable DeliveryReport report) {

  /**
   * Since when a delivery is tried: its first try, not its queueing, since it may have been queued
   * for a later day. Tries that only put it off to such a day do not count.
   */
  public static Optional<Instant> since(List<Attempt> attempts) {
    Instant since = null;
    for (Attempt one : attempts) {
      if (one.outcome() == DeliveryState.QUEUED) {
        since = null;
      } else if (since == null) {
        since = one.startedAt();
      }
    }
    return Optional.ofNullable(since);
  }
}
