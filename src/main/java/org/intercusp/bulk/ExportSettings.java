package org.intercusp.bulk;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * How exports of many resources are worked off. All values are common practice, no source.
 *
 * @param atOnce how many of one caller may be under way
 * @param keptEach how many of one caller are kept at all
 * @param kept how long the files of a finished one are kept
 * @param polling how often waiting ones are looked for
 * @param lease how long one belongs to an instance that gives no sign of life
 */
@ConfigurationProperties("intercusp.exports")
public record ExportSettings(
    @DefaultValue("2") int atOnce,
    @DefaultValue("20") int keptEach,
    @DefaultValue("24h") Duration kept,
    @DefaultValue("1s") Duration polling,
    @DefaultValue("60s") Duration lease) {

  public ExportSettings {
    if (atOnce < 1 || keptEach < atOnce) {
      throw new IllegalArgumentException("at-once is at least 1, kept-each no less than at-once");
    }
    if (!isLong(kept) || !isLong(polling) || !isLong(lease)) {
      throw new IllegalArgumentException("kept, polling and lease are more than nothing");
    }
  }

  private static boolean isLong(Duration duration) {
    return duration.toMillis() > 0;
  }
}
