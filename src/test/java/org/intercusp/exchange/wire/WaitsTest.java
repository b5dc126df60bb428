package org.intercusp.exchange.wire;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Waits of our own and those a server asks for. */
class WaitsTest {

  @ParameterizedTest
  @CsvSource({
    "0, 0",
    "7, 7",
    "99999999999999999999, 86400",
    "'Sun, 01 Nov 2026 12:00:30 GMT', 30",
    "'Sun, 01 Nov 2026 11:00:00 GMT', 0",
    "'Sun, 01 Nov 2099 11:00:00 GMT', 86400"
  })
  void readsRetryAfterInBothForms(String header, long seconds) {
    Clock clock = Clock.fixed(Instant.parse("2026-11-01T12:00:00Z"), ZoneOffset.UTC);

    assertThat(Waits.retryAfter(header, clock)).contains(Duration.ofSeconds(seconds));
    assertThat(Waits.retryAfter("soon", clock)).isEmpty();
    assertThat(Waits.retryAfter("-5", clock)).isEmpty();
  }

  @Test
  void waitsGrowWithJitterAndEnd() {
    Random random = new Random(7);
    Duration first = Duration.ofMillis(100);
    Duration longest = Duration.ofSeconds(2);

    for (int tried = 1; tried < 80; tried++) {
      double whole = Math.min(100 * Math.pow(2, tried - 1), 2_000);
      Duration wait = Waits.growing(first, longest, tried, random);
      assertThat((double) wait.toMillis()).isBetween(whole / 2 - 1, whole + 1);
    }
  }
}
