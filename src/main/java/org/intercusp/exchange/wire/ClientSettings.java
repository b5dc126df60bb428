package org.intercusp.exchange.wire;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * What a call to a records server may take. All values are common practice, no source.
 *
 * @param connecting how long a connection may take to come about
 * @param deadline how long a whole delivery or fetch may take, waits and retries included
 * @param answerBytes the longest answer taken
 * @param tries how often one step is tried within the deadline
 * @param firstWait the wait before the second try; it doubles from then on, with jitter
 * @param longestWait the longest wait of our own
 * @param longestRetryAfter the longest wait a server can ask for within a call; beyond it the call
 *     ends and says when to come again
 * @param pages the most pages of one search that are followed
 */
@ConfigurationProperties("intercusp.client")
public record ClientSettings(
    @DefaultValue("5s") Duration connecting,
    @DefaultValue("90s") Duration deadline,
    @DefaultValue("33554432") int answerBytes,
    @DefaultValue("4") int tries,
    @DefaultValue("250ms") Duration firstWait,
    @DefaultValue("8s") Duration longestWait,
    @DefaultValue("20s") Duration longestRetryAfter,
    @DefaultValue("200") int pages) {

  /** What is used where nothing is configured. */
  public static final ClientSettings DEFAULT =
      new ClientSettings(
          Duration.ofSeconds(5),
          Duration.ofSeconds(90),
          32 * 1024 * 1024,
          4,
          Duration.ofMillis(250),
          Duration.ofSeconds(8),
          Duration.ofSeconds(20),
          200);

  public ClientSettings {
    positive("connecting", connecting);
    positive("deadline", deadline);
    positive("first-wait", firstWait);
    positive("longest-wait", longestWait);
    positive("longest-retry-after", longestRetryAfter);
    if (answerBytes < 1 || tries < 1 || pages < 1) {
      throw new IllegalArgumentException("answer-bytes, tries and pages are at least 1");
    }
  }

  /** The same with another deadline. */
  public ClientSettings within(Duration other) {
    return new ClientSettings(
        connecting, other, answerBytes, tries, firstWait, longestWait, longestRetryAfter, pages);
  }

  private static void positive(String name, Duration duration) {
    if (duration.isNegative() || duration.isZero()) {
      throw new IllegalArgumentException(name + " is more than nothing");
    }
  }
}
