package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import java.util.TimeZone;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a command prints is the same whatever language and time zone a machine is set to. */
class SameEverywhereTest {

  private static final String UNSAFE = "sample-bundles/unsafe-bite-refused.treatment.json";

  @ParameterizedTest
  @ValueSource(
      strings = {
        "generate --treatments 2 --seed 5",
        "generate --treatments 2 --seed 5 --as outcomes",
        "check --format json " + UNSAFE,
        "check --format text sample-bundles/slow-progress-doubtful-wear.treatment.json",
        "check --format fhir " + UNSAFE,
        "map --format xml --as document " + UNSAFE,
        "summary --for patient --format html " + UNSAFE,
        "validate sample-bundles/allergy.bundle.json"
      })
  void itIsTheSame(String command) {
    String[] words = command.split(" ");
    String here = printed(Locale.US, "UTC", words);
    assertThat(here).isNotBlank();
    // Arabic digits, a decimal comma, an i without its dot; the day before and the day after.
    assertThat(printed(Locale.forLanguageTag("ar-EG"), "Pacific/Auckland", words)).isEqualTo(here);
    assertThat(printed(Locale.GERMANY, "America/Los_Angeles", words)).isEqualTo(here);
    assertThat(printed(Locale.forLanguageTag("tr-TR"), "Asia/Kolkata", words)).isEqualTo(here);
  }

  private static String printed(Locale locale, String zone, String... words) {
    Locale language = Locale.getDefault();
    TimeZone time = TimeZone.getDefault();
    Locale.setDefault(locale);
    TimeZone.setDefault(TimeZone.getTimeZone(zone));
    try (Overheard said = new Overheard()) {
      assertThat(Intercusp.command(words)).isLessThan(2);
      return said.out();
    } finally {
      Locale.setDefault(language);
      TimeZone.setDefault(time);
    }
  }
}
