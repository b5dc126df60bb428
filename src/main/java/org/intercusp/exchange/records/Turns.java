package org.intercusp.exchange.records;

import java.time.Duration;
import java.util.Objects;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ConcurrentMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.ReentrantLock;

/**
 * One at a time for each name, and nobody waits for another name. A name is kept only while
 * somebody has its turn or waits for it.
 */
final class Turns {

  private final ConcurrentMap<String, Turn> turns = new ConcurrentHashMap<>();

  private static final class Turn {
    private final ReentrantLock lock = new ReentrantLock();

    /** Who has it and who waits; changed under the map's own lock alone. */
    private int users;
  }

  /** Waits for the turn; false when it did not come in time. */
  boolean take(String name, Duration patience) throws InterruptedException {
    Turn turn =
        turns.compute(
            name,
            (key, there) -> {
              Turn one = there == null ? new Turn() : there;
              one.users++;
              return one;
            });
    boolean taken = false;
    try {
      taken = turn.lock.tryLock(patience.toMillis(), TimeUnit.MILLISECONDS);
      return taken;
    } finally {
      if (!taken) {
        leave(name);
      }
    }
  }

  /** Gives it back, in the thread that took it. */
  void give(String name) {
    Objects.requireNonNull(turns.get(name)).lock.unlock();
    leave(name);
  }

  private void leave(String name) {
    turns.computeIfPresent(name, (key, turn) -> --turn.users == 0 ? null : turn);
  }

  boolean isEmpty() {
    return turns.isEmpty();
  }
}
