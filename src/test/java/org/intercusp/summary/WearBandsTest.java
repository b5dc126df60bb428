package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Map;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a family reads beside the hours: all day only where the rules call them full time too. */
class WearBandsTest {

  private static final String ALL_DAY = "all day and all night";
  private static final String DAY_TOO = "Wear it all night. Make up the rest of the hours by day.";
  private static final String NIGHTS = "Most of them can be at night.";

  @ParameterizedTest
  @CsvSource({"24, full", "20.5, full", "20, day", "18, day", "12.5, day", "12, night", "8, night"})
  void theWordsFitTheHours(String hours, String band) {
    String english = family(hours, Locale.ENGLISH, Limits.USUAL);
    String german = family(hours, Locale.GERMAN, Limits.USUAL);
    assertThat(english.contains(ALL_DAY)).isEqualTo(band.equals("full"));
    assertThat(german.contains("Tag und Nacht")).isEqualTo(band.equals("full"));
    assertThat(english.contains(DAY_TOO)).isEqualTo(band.equals("day"));
    assertThat(german.contains("Die Stunden, die dann noch fehlen, trägst du sie am Tag."))
        .isEqualTo(band.equals("day"));
    assertThat(english.contains(NIGHTS)).isEqualTo(band.equals("night"));
    assertThat(german.contains("Die meisten davon können in der Nacht sein."))
        .isEqualTo(band.equals("night"));
  }

  @Test
  void aClinicsOwnLimitsAreKept() {
    Limits own =
        Limits.named(
            Map.of(
                "wear-full-time", new BigDecimal("16"),
                "wear-retention-most", new BigDecimal("10")));
    assertThat(family("18", Locale.ENGLISH, own)).contains(ALL_DAY);
    assertThat(family("11", Locale.ENGLISH, own)).contains(DAY_TOO);
  }

  @Test
  void noHoursAtAllAreNoHoursToWearItFor() {
    assertThat(family("0", Locale.ENGLISH, Limits.USUAL))
        .contains("Ask the clinic how long to wear your brace each day.")
        .doesNotContain("0 hours");
  }

  /** What is worn at night alone is not worn at meals. */
  @ParameterizedTest
  @CsvSource({"22, in", "14, in", "12, out", "8, out"})
  void whoWearsItAtNightEatsWithoutIt(String hours, String brace) {
    boolean out = brace.equals("out");
    String english = family(hours, Locale.ENGLISH, Limits.USUAL);
    String german = family(hours, Locale.GERMAN, Limits.USUAL);
    assertThat(english.contains("eat with your brace in")).isNotEqualTo(out);
    assertThat(english.contains("Take your brace out to eat.")).isEqualTo(out);
    assertThat(german.contains("Dann iss mit der Spange.")).isNotEqualTo(out);
    assertThat(german.contains("Nimm die Spange zum Essen raus.")).isEqualTo(out);
  }

  private static String family(String hours, Locale language, Limits limits) {
    Treatment treatment = SampleTreatments.changed("{\"/stages/0/wearHours\": " + hours + "}");
    LocalDate on = Written.ON;
    byte[] html =
        Written.SUMMARIES.render(
            treatment,
            new Examiner(limits).examine(treatment, on),
            on,
            Audience.PATIENT,
            Form.HTML,
            language);
    return Written.text(new String(html, StandardCharsets.UTF_8));
  }
}
