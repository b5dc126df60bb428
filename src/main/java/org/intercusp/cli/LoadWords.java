package org.intercusp.cli;

import org.intercusp.registry.intake.LoadStatus;
import org.intercusp.registry.store.RefusedLine;

/** Says on standard error how a load goes, and on standard output what it came to. */
final class LoadWords {

  private static final long EVERY_NANOS = 1_000_000_000L;

  private final Console console;
  private final long size;
  private final long begin = System.nanoTime();
  private long before = -1;
  private long last = begin;

  /**
   * Starts the clock.
   *
   * @param size bytes of the input, 0 where not known
   */
  LoadWords(Console console, long size) {
    this.console = console;
    this.size = size;
  }

  /** A refusal as people are told it: whom it is about stays in the store. */
  static String shown(String refusedLine) {
    return RefusedLine.forPeople(refusedLine);
  }

  void step(LoadStatus status) {
    long now = System.nanoTime();
    if (before < 0) {
      before = status.counts().read();
    }
    if (now - last >= EVERY_NANOS) {
      last = now;
      String share = size > 0 ? ", %.0f %%".formatted(100.0 * status.bytes() / size) : "";
      long since = status.counts().read() - before;
      // What an earlier run had read says nothing of this one's speed, nor does the first batch.
      String speed = since > 0 ? ", %,.0f a second".formatted(since * 1e9 / (now - begin)) : "";
      console.say("%,d read%s%s".formatted(status.counts().read(), share, speed));
    }
  }

  void end(LoadStatus status) {
    if (!status.ended()) {
      console.say("Interrupted; load the same file again to go on.");
    }
    console.result(status.counts().shown());
  }
}
