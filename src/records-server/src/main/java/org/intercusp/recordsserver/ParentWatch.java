package org.intercusp.recordsserver;

import java.io.IOException;
import java.io.InputStream;

/**
 * Ends this process when its standard input ends. The parent holds the other end of that pipe and
 * the operating system closes it however the parent dies, so no server is left behind.
 */
final class ParentWatch {

  private ParentWatch() {}

  static void start(InputStream input) {
    Thread watch = new Thread(() -> waitForEnd(input), "parent-watch");
    watch.setDaemon(true);
    watch.start();
  }

  private static void waitForEnd(InputStream input) {
    try {
      while (input.read() >= 0) {
        // what is written to the pipe has no meaning: only its end has
      }
    } catch (IOException e) {
      // a broken pipe is an end too
    }
    // The database lives in memory: there is nothing to put in order, and an orderly shutdown of
    // all parts takes seconds in which the port stays taken.
    Runtime.getRuntime().halt(0);
  }
}
