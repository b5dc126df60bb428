package org.intercusp.exchange;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * What servers said they can do, remembered for a little while: a general server's statement is a
 * megabyte and a half, and composing it was measured to take more of its time than all searches of
 * a delivery.
 */
final class Statements {

  /** As long as the general servers built on HAPI FHIR keep their own answer before another. */
  static final Duration KEPT = Duration.ofMinutes(1);

  private record Said(Capabilities can, Instant at) {}

  private final Clock clock;
  private final Map<String, Said> byBase = new ConcurrentHashMap<>();

  Statements(Clock clock) {
    this.clock = clock;
  }

  /** What this server said not long ago; a clock that was set back makes it unknown. */
  Optional<Capabilities> of(String base) {
    Instant now = clock.instant();
    return Optional.ofNullable(byBase.get(base))
        .filter(said -> !said.at().isAfter(now) && said.at().plus(KEPT).isAfter(now))
        .map(Said::can);
  }

  void learn(String base, Capabilities can) {
    byBase.put(base, new Said(can, clock.instant()));
  }

  void forget(String base) {
    byBase.remove(base);
  }
}
