package org.intercusp.exchange.proposal;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * How recipients are asked for changes; which of them are, and how often, stands with each
 * recipient. All values are common practice, no source.
 *
 * @param overlap how far a question goes back behind the one before, for what was written there
 *     while it was answered
 * @param patients how many patients are asked for in one search
 * @param round how many patients are looked through in one poll for what was deleted, which no
 *     search for changes shows; all in turn, 0 for none
 */
@ConfigurationProperties("intercusp.polling")
public record PollSettings(
    @DefaultValue("2m") Duration overlap,
    @DefaultValue("20") int patients,
    @DefaultValue("20") int round) {

  /** What is used where nothing is configured. */
  public static final PollSettings DEFAULT = new PollSettings(Duration.ofMinutes(2), 20, 20);

  public PollSettings {
    if (overlap.isNegative()) {
      throw new IllegalArgumentException("overlap is not negative");
    }
    if (patients < 1 || patients > 50) {
      throw new IllegalArgumentException("patients is from 1 to 50, so that addresses stay short");
    }
    if (round < 0) {
      throw new IllegalArgumentException("round is not negative");
    }
  }
}
