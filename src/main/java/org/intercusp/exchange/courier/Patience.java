package org.intercusp.exchange.courier;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Objects;
import java.util.concurrent.ThreadLocalRandom;
import org.intercusp.exchange.queue.Attempt;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryRows;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Ending;
import org.intercusp.exchange.wire.Waits;

/** How long a delivery is tried, and how long it waits in between. */
final class Patience {

  /**
   * So often at least a delivery is tried, however much time seems to have gone by: a clock that
   * jumped must end none. Common practice, no source.
   */
  private static final int FEWEST_TRIES = 10;

  private final DeliveryRows rows;
  private final DeliverySettings settings;
  private final Clock clock;

  Patience(DeliveryRows rows, DeliverySettings settings, Clock clock) {
    this.rows = rows;
    this.settings = settings;
    this.clock = clock;
  }

  /** The ending, or where it was tried long enough, the one that ends the delivery. */
  Ending with(Delivery delivery, Ending ending) {
    if (ending.state() != DeliveryState.WAITING) {
      return ending;
    }
    if (isContended(ending.status()) && contentions(delivery) + 1 >= settings.contentions()) {
      return as(DeliveryState.HELD, ending, "Others keep writing the same: " + ending.reason());
    }
    Instant since = Attempt.since(rows.attempts(delivery.id())).orElse(delivery.queuedAt());
    Duration age = Duration.between(since, now());
    boolean enough = delivery.attempts() + 1 >= FEWEST_TRIES;
    if (enough && age.compareTo(settings.longestTime()) > 0) {
      return as(DeliveryState.GIVEN_UP, ending, "Tried long enough: " + ending.reason());
    }
    return ending;
  }

  private long contentions(Delivery delivery) {
    return rows.attempts(delivery.id()).stream()
        .filter(attempt -> isContended(attempt.status()))
        .count();
  }

  private static boolean isContended(int status) {
    return status == 409 || status == 412;
  }

  private static Ending as(DeliveryState state, Ending ending, String reason) {
    return new Ending(state, reason, ending.status(), ending.words(), null, null, null);
  }

  /** When to try again what has not come to its end. */
  Instant due(Delivery delivery, Ending ending) {
    if (ending.state() == DeliveryState.QUEUED) {
      return now().plus(Objects.requireNonNull(ending.retryAfter()));
    }
    Duration own =
        Waits.growing(
            settings.firstWait(),
            settings.longestWait(),
            delivery.attempts() + 1,
            ThreadLocalRandom.current());
    Duration asked = ending.retryAfter() == null ? Duration.ZERO : ending.retryAfter();
    return now().plus(asked.compareTo(own) > 0 ? asked : own);
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
