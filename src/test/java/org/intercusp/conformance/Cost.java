package org.intercusp.conformance;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.lang.management.ManagementFactory;
import java.time.Duration;
import tools.jackson.core.JsonParser;
import tools.jackson.core.JsonToken;
import tools.jackson.core.ObjectReadContext;
import tools.jackson.core.json.JsonFactory;

/** Processor time of the calling thread. */
final class Cost {

  /** What an answer to an attack may cost, on a warm machine that has little else to do. */
  private static final Duration BOUND = Duration.ofMillis(50);

  /**
   * The same in readings of {@link #PLAIN}, for one that is slow or busy: what runs beside it on
   * the same core shows in the processor time of both.
   */
  private static final int READINGS = 6;

  /** Two megabytes, token by token as any reader has to. */
  private static final String PLAIN =
      "[" + ("{\"a\":\"" + "b".repeat(60) + "\",\"c\":[1.5,2]},").repeat(26_000) + "{}]";

  private Cost() {}

  /** Sees that work stays within the bound. */
  static void mustBeBounded(Runnable work) {
    Duration cost = ofRepeated(work);
    if (cost.compareTo(BOUND) >= 0) {
      assertThat(cost).isLessThan(ofRepeated(Cost::readPlain).multipliedBy(READINGS));
    }
  }

  private static void readPlain() {
    byte[] bytes = PLAIN.getBytes(UTF_8);
    try (JsonParser parser =
        new JsonFactory().createParser(ObjectReadContext.empty(), new String(bytes, UTF_8))) {
      int length = 0;
      for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
        if (token.isScalarValue()) {
          length += parser.getString().length();
        }
      }
      assertThat(length).isPositive();
    }
  }

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
