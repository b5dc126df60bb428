package org.intercusp.exchange.wire;

import java.util.concurrent.ThreadFactory;

/** Threads with a name that do not keep the program from ending. */
public final class Daemons {

  private Daemons() {}

  /** Makes threads of this name. */
  public static ThreadFactory named(String name) {
    return work -> {
      Thread thread = new Thread(work, name);
      thread.setDaemon(true);
      return thread;
    };
  }
}
