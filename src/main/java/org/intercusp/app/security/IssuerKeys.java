package org.intercusp.app.security;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.springframework.cache.concurrent.ConcurrentMapCache;

/**
 * The issuer's keys as last fetched. A token that names a key nobody has makes the decoder ask for
 * the keys anew; without a bound each junk token would cost a request to the issuer, one after the
 * other, with good tokens waiting behind them. So they are fetched anew at most every {@link
 * #SOONEST}, and a key that the issuer takes into use is known here after that time.
 */
final class IssuerKeys extends ConcurrentMapCache {

  /** The library's own interval between two fetches where it limits them (nimbus-jose-jwt). */
  static final Duration SOONEST = Duration.ofSeconds(30);

  /** The library's own age after which keys are fetched anew, so that withdrawn ones go. */
  static final Duration LONGEST = Duration.ofMinutes(5);

  private final Clock clock;
  private volatile Instant fetched = Instant.EPOCH;

  IssuerKeys(Clock clock) {
    super("issuer-keys");
    this.clock = clock;
  }

  @Override
  public <T> @Nullable T get(Object key, Callable<T> fetch) {
    if (isOlderThan(LONGEST)) {
      clear();
    }
    return super.get(
        key,
        () -> {
          T keys = fetch.call();
          fetched = clock.instant();
          return keys;
        });
  }

  /** What the decoder calls when no key fits. */
  @Override
  public boolean invalidate() {
    return isOlderThan(SOONEST) && super.invalidate();
  }

  private boolean isOlderThan(Duration age) {
    return !clock.instant().isBefore(fetched.plus(age));
  }
}
