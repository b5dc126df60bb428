package org.intercusp.app;

import java.lang.Thread.UncaughtExceptionHandler;
import org.intercusp.archive.DatabaseTrouble;
import org.intercusp.finding.FaultPlace;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * What a thread that ended by a fault leaves: one line with its kind and place. Where memory ran
 * out the whole service ends, since any of its threads may be gone, such as the one that takes
 * requests; what was taken is kept, and goes on after the next start.
 */
final class LastWords implements UncaughtExceptionHandler {

  private static final Logger LOG = LoggerFactory.getLogger(LastWords.class);

  /** The exit code of a failure of ours, as of every command. */
  private static final int OUR_FAULT = 3;

  /** Made before, since there is no room then. */
  private static final String NO_MEMORY =
      "Ended: the memory ran out; give it more, as in java -Xmx512m -jar. What was taken is kept.";

  private final Runnable end;

  LastWords() {
    this(() -> Runtime.getRuntime().halt(OUR_FAULT));
  }

  /**
   * @param end ends the process
   */
  LastWords(Runnable end) {
    this.end = end;
  }

  @Override
  public void uncaughtException(Thread thread, Throwable fault) {
    if (fault instanceof OutOfMemoryError) {
      try {
        System.err.println(NO_MEMORY);
      } finally {
        end.run();
      }
      return;
    }
    LOG.error(
        "Thread {} ended: {}",
        thread.getName(),
        DatabaseTrouble.in(fault)
            .map(trouble -> trouble.words() + " at " + FaultPlace.place(fault))
            .orElseGet(() -> FaultPlace.of(fault)));
  }
}
