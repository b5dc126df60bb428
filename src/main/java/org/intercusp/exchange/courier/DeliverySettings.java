package org.intercusp.exchange.courier;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * How deliveries are worked off. All values are common practice, no source.
 *
 * @param workers how many are under way at once in one instance
 * @param perRecipient how many of them to one recipient, so that a slow one leaves room for others
 * @param polling how often due deliveries are looked for
 * @param lease how long a delivery belongs to an instance that gives no sign of life
 * @param firstWait the wait before the second try; it doubles from then on, with jitter
 * @param longestWait the longest wait
 * @param longestTime how long after its first try it is tried
 * @param contentions how many tries may end because somebody else writes the same, before a person
 *     has to look
 * @param settling how long after a write without an answer the recipient may still carry it out;
 *     longer than proxies commonly wait for a server behind them, which is a minute
 */
@ConfigurationProperties("intercusp.deliveries")
public record DeliverySettings(
    @DefaultValue("8") int workers,
    @DefaultValue("3") int perRecipient,
    @DefaultValue("1s") Duration polling,
    @DefaultValue("30s") Duration lease,
    @DefaultValue("15s") Duration firstWait,
    @DefaultValue("1h") Duration longestWait,
    @DefaultValue("7d") Duration longestTime,
    @DefaultValue("8") int contentions,
    @DefaultValue("2m") Duration settling) {

  /** What is used where nothing is configured. */
  public static final DeliverySettings DEFAULT =
      new DeliverySettings(
          8,
          3,
          Duration.ofSeconds(1),
          Duration.ofSeconds(30),
          Duration.ofSeconds(15),
          Duration.ofHours(1),
          Duration.ofDays(7),
          8,
          Duration.ofMinutes(2));

  public DeliverySettings {
    if (workers < 1 || perRecipient < 1 || contentions < 1) {
      throw new IllegalArgumentException("workers, per-recipient and contentions are at least 1");
    }
    positive("polling", polling);
    positive("lease", lease);
    positive("first-wait", firstWait);
    positive("longest-wait", longestWait);
    positive("longest-time", longestTime);
    positive("settling", settling);
  }

  private static void positive(String name, Duration duration) {
    if (duration.isNegative() || duration.isZero()) {
      throw new IllegalArgumentException(name + " is more than nothing");
    }
  }
}
