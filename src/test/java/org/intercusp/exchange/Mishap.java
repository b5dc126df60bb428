package org.intercusp.exchange;

import java.time.Duration;
import java.time.ZoneOffset;
import java.time.ZonedDateTime;
import java.time.format.DateTimeFormatter;
import java.util.List;
import org.intercusp.exchange.FaultyServer.Said;

/** What can go wrong with one request. */
enum Mishap {
  /** Done, and the connection closed without an answer. */
  LOST,
  /** Not done, and the connection closed without an answer. */
  RESET,
  /** Done, and the headers of the answer come later than anybody waits. */
  STALLED_DONE,
  /** Not done, and no headers. */
  STALLED,
  /** No headers; done when the sender has given up. */
  LATE,
  /** A gateway's answer; done when it has been sent. */
  GATEWAY_LATE(502),
  TIMED_OUT(408),
  CONFLICT(409),
  STALE(412),
  EARLY(425),
  TOO_MANY_SECONDS(429, "1"),
  TOO_MANY_DATE(429, "date"),
  TOO_MANY_FOREVER(429, "99999999999"),
  TOO_MANY_NEVER(429, "-7"),
  TOO_MANY_WORDS(429, "when the moon is full"),
  FAULT(500),
  /** Done, and yet a fault answered. */
  FAULT_DONE(500),
  DOWN(503),
  /** Answered 200, with entries that failed: a transaction does nothing, a batch half. */
  HALF,
  /** The process that asks is killed, and nothing done. */
  KILLED,
  /** Done, and the process that asked killed before it hears of it. */
  KILLED_DONE,
  /** The process that asks is killed, and done a little later. */
  KILLED_LATE;

  static final List<Mishap> KILLS = List.of(KILLED, KILLED_DONE, KILLED_LATE);

  /** Those that can befall a write without a process being killed. */
  static final List<Mishap> WRITES =
      List.of(values()).stream().filter(one -> !KILLS.contains(one)).toList();

  /** Those that can befall a look. */
  static final List<Mishap> READS =
      List.of(RESET, STALLED, TIMED_OUT, TOO_MANY_SECONDS, TOO_MANY_DATE, FAULT, DOWN);

  private final int status;
  private final String retryAfter;

  Mishap() {
    this(0, "");
  }

  Mishap(int status) {
    this(status, "");
  }

  Mishap(int status, String retryAfter) {
    this.status = status;
    this.retryAfter = retryAfter;
  }

  boolean kills() {
    return KILLS.contains(this);
  }

  /** Whether the records server takes the write before anything else happens. */
  boolean isDoneFirst() {
    return this == LOST || this == STALLED_DONE || this == FAULT_DONE || this == KILLED_DONE;
  }

  /** Whether the records server takes the write when its sender no longer waits. */
  boolean isDoneLate() {
    return this == LATE || this == GATEWAY_LATE || this == KILLED_LATE;
  }

  boolean isSilent() {
    return this == STALLED || this == STALLED_DONE || this == LATE;
  }

  /** The answer; without status the connection is closed. */
  Said said() {
    if (status == 0) {
      return Said.nothing();
    }
    Said said = Said.of(status, "text/plain", "Come again");
    if (retryAfter.isEmpty()) {
      return said;
    }
    ZonedDateTime then = ZonedDateTime.now(ZoneOffset.UTC).plus(Duration.ofSeconds(2));
    return said.with(
        "Retry-After",
        retryAfter.equals("date")
            ? DateTimeFormatter.RFC_1123_DATE_TIME.format(then)
            : retryAfter);
  }
}
