package org.intercusp.exchange.custody;

import java.time.LocalDate;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * How long a finished treatment must be kept; the law of the clinic's country decides. Both hold,
 * the later day counts.
 *
 * @param years after the end of treatment; 10 from memory of section 630f (3) of the German Civil
 *     Code
 * @param untilAge the patient's birthday up to which a minor's record is kept, 0 for none; 25 from
 *     memory of the records management code of the British health service
 */
@ConfigurationProperties("intercusp.retention")
public record RetentionSettings(@DefaultValue("10") int years, @DefaultValue("25") int untilAge) {

  /** What is used where nothing is configured. */
  public static final RetentionSettings DEFAULT = new RetentionSettings(10, 25);

  public RetentionSettings {
    if (years < 0 || untilAge < 0) {
      throw new IllegalArgumentException("years and until-age of retention are 0 or more");
    }
  }

  /** The first day on which a treatment that ended then may be erased. */
  LocalDate until(LocalDate end, LocalDate birth) {
    LocalDate byEnd = end.plusYears(years);
    LocalDate byAge = birth.plusYears(untilAge);
    return untilAge > 0 && byAge.isAfter(byEnd) ? byAge : byEnd;
  }
}
