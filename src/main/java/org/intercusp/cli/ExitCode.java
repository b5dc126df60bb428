package org.intercusp.cli;

/**
 * How a command ended. With several files the worst counts, in the order 3, 2, 4, 1, 0.
 *
 * <p>The constants stand from best to worst.
 */
enum ExitCode {
  /** Clean, or warnings only. */
  CLEAN(0),
  /** Unaccepted errors, no such patient, some records refused. */
  FINDINGS(1),
  /** Not delivered or not reached. */
  NOT_DELIVERED(4),
  /** Bad usage or unreadable input. */
  UNREADABLE(2),
  /** A failure of ours. */
  OUR_FAULT(3);

  private final int code;

  ExitCode(int code) {
    this.code = code;
  }

  int code() {
    return code;
  }

  ExitCode or(ExitCode other) {
    return compareTo(other) >= 0 ? this : other;
  }
}
