package org.intercusp.cli;

import java.time.Duration;

/** Says now and then on standard error how far a long run has come. */
final class Progress {

  /** How often; common practice, no source. */
  private static final Duration EVERY = Duration.ofSeconds(2);

  private final Console console;
  private final long begin = System.nanoTime();
  private long last = begin;
  private long done;

  Progress(Console console) {
    this.console = console;
  }

  void step() {
    done++;
    long now = System.nanoTime();
    if (now - last >= EVERY.toNanos()) {
      last = now;
      console.say("%d read, %.0f a second".formatted(done, done * 1e9 / (now - begin)));
    }
  }

  void end() {
    long now = System.nanoTime();
    if (done > 1) {
      console.say(
          "%d read in %.1f s, %.0f a second"
              .formatted(done, (now - begin) / 1e9, done * 1e9 / (now - begin)));
    }
  }
}
