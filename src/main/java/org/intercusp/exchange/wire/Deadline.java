package org.intercusp.exchange.wire;

import java.time.Duration;

/** The end of a whole call, on the clock that never jumps. */
public final class Deadline {

  private final long end;

  private Deadline(long end) {
    this.end = end;
  }

  /** One that is over after this time. */
  public static Deadline in(Duration time) {
    return new Deadline(System.nanoTime() + time.toNanos());
  }

  /** What is left, zero when nothing is. */
  public Duration left() {
    return Duration.ofNanos(Math.max(0, end - System.nanoTime()));
  }

  /** Whether nothing is left. */
  public boolean isOver() {
    return left().isZero();
  }

  /** Waits; does not begin a wait that would outlast the deadline. */
  boolean pause(Duration wait) throws Trouble {
    if (wait.compareTo(left()) >= 0) {
      return false;
    }
    try {
      Thread.sleep(wait.toMillis());
      return true;
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new Trouble(Difficulty.SLOW, "Interrupted while waiting for the records server");
    }
  }
}
