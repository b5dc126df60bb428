package org.intercusp.conformance;

import java.lang.management.ManagementFactory;
import java.time.Duration;

/** Processor time of the calling thread. */
final class Cost {

  /** What an answer to an attack may cost, on a warm machine. */
  static final Duration BOUND = Duration.ofMillis(50);

  private Cost() {}

  /**
   * The least of several runs: what the work costs, without the compiler's and collector's share.
   */
  static Duration ofRepeated(Runnable work) {
    long least = Long.MAX_VALUE;
    for (int i = 0; i < 12 || (i < 60 && least > BOUND.toNanos() / 2); i++) {
      least = Math.min(least, of(work));
    }
    return Duration.ofNanos(least);
  }

  static long of(Runnable work) {
    var threads = ManagementFactory.getThreadMXBean();
    long before = threads.getCurrentThreadCpuTime();
    work.run();
    return threads.getCurrentThreadCpuTime() - before;
  }
}
