package org.intercusp.exchange;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;

/**
 * What servers said of themselves a while ago. A general server's statement has one or two
 * megabytes, more than all the rest of a delivery, and changes when somebody upgrades the server:
 * it is read again after a while, and at once when anything has gone wrong.
 */
final class Statements {

  /** How long it is taken to hold; common practice, no source. */
  static final Duration HOLDS = Duration.ofMinutes(5);

  private record Said(Capabilities can, Instant at) {}

  private final Clock clock;
  private final Map<String, Said> known = new ConcurrentHashMap<>();

  Statements(Clock clock) {
    this.clock = clock;
  }

  Optional<Capabilities> of(String base) {
    Said said = known.get(base);
    if (said == null) {
      return Optional.empty();
    }
    Duration age = Duration.between(said.at(), clock.instant());
    // Below zero: the clock was set back, and how old it is cannot be told.
    boolean holds = !age.isNegative() && age.compareTo(HOLDS) < 0;
    return holds ? Optional.of(said.can()) : Optional.empty();
  }

  void remember(String base, Capabilities can) {
    known.put(base, new Said(can, clock.instant()));
  }

  void forget(String base) {
    known.remove(base);
  }
}
