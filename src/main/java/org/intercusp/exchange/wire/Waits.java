package org.intercusp.exchange.wire;

import java.time.Clock;
import java.time.DateTimeException;
import java.time.Duration;
import java.time.Instant;
import java.time.format.DateTimeFormatter;
import java.util.Optional;
import java.util.random.RandomGenerator;
import org.jspecify.annotations.Nullable;

/** How long to wait before trying again. */
public final class Waits {

  /** Beyond them any wait is the longest, and the sum still fits. */
  private static final int MOST_DOUBLINGS = 30;

  /** Longest value of a Retry-After that is believed; common practice, no source. */
  static final Duration LONGEST_BELIEVED = Duration.ofDays(1);

  private Waits() {}

  /**
   * A wait that doubles from one try to the next, cut off, then drawn between half and the whole of
   * itself, so that many who failed together do not come again together.
   */
  public static Duration growing(
      Duration first, Duration longest, int triesSoFar, RandomGenerator random) {
    int doublings = Math.min(Math.max(0, triesSoFar - 1), MOST_DOUBLINGS);
    double whole = Math.min(first.toMillis() * Math.pow(2, doublings), (double) longest.toMillis());
    return Duration.ofMillis(Math.round(whole * (0.5 + random.nextDouble() / 2)));
  }

  /**
   * Retry-After as seconds or as an HTTP date (RFC 9110, 10.2.3), between nothing and {@link
   * #LONGEST_BELIEVED}; empty when absent or neither.
   */
  static Optional<Duration> retryAfter(@Nullable String header, Clock clock) {
    if (header == null || header.isBlank()) {
      return Optional.empty();
    }
    String text = header.strip();
    if (text.matches("[0-9]+")) {
      boolean believable = text.length() <= 9;
      return Optional.of(
          believable ? bounded(Duration.ofSeconds(Long.parseLong(text))) : LONGEST_BELIEVED);
    }
    try {
      Instant then = Instant.from(DateTimeFormatter.RFC_1123_DATE_TIME.parse(text));
      return Optional.of(bounded(Duration.between(clock.instant(), then)));
    } catch (DateTimeException | ArithmeticException e) {
      return Optional.empty();
    }
  }

  private static Duration bounded(Duration asked) {
    if (asked.isNegative()) {
      return Duration.ZERO;
    }
    return asked.compareTo(LONGEST_BELIEVED) > 0 ? LONGEST_BELIEVED : asked;
  }
}
