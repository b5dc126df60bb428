package org.intercusp.summary.content;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Properties;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * Reading age of the patient's sheet. English: grade level {@code 0.39 words/sentences + 11.8
 * syllables/words - 15.59} (Naval Technical Training, Research Branch Report 8-75, 1975); an
 * eleven-year-old is in grade 6. German: fourth text formula {@code 0.2656 words/sentences + 0.2744
 * long words in per cent - 1.693} in school years, a long word having three syllables or more (from
 * memory of Bamberger and Vanecek, 1984). Syllables are counted as groups of vowels.
 */
class PatientTextsTest {

  private static final double GRADE = 6;

  @Test
  void englishIsReadByAnElevenYearOld() throws Exception {
    String text = prose("patient.properties");
    assertThat(english(text)).isBetween(0.5, GRADE);
    assertThat(
            english(
                "Discontinuation of functional orthodontic appliance therapy necessitates"
                    + " comprehensive multidisciplinary re-evaluation."))
        .isGreaterThan(12);
  }

  @Test
  void germanIsReadByAnElevenYearOld() throws Exception {
    String text = prose("patient_de.properties");
    assertThat(german(text)).isBetween(0.5, GRADE);
    assertThat(
            german(
                "Die Unterbrechung der funktionskieferorthopädischen Behandlung erfordert eine"
                    + " umfassende interdisziplinäre Neubewertung."))
        .isGreaterThan(9);
  }

  @Test
  void everyLanguageHasEveryTextAndEveryPlaceInIt() throws Exception {
    Properties english = properties("patient.properties");
    Properties german = properties("patient_de.properties");
    assertThat(german.stringPropertyNames()).isEqualTo(english.stringPropertyNames());
    for (String key : english.stringPropertyNames()) {
      assertThat(german.getProperty(key).contains("{0}"))
          .as(key)
          .isEqualTo(english.getProperty(key).contains("{0}"));
    }
  }

  /** Held by the root a tooth may be lost; of an upper one that is what stands above. */
  @Test
  void aToothThatIsOutIsHeldByItsCrown() {
    assertThat(PatientTexts.in(Locale.ENGLISH).all("urgent").get(4)).contains("by the white part");
    assertThat(PatientTexts.in(Locale.GERMAN).all("urgent").get(4))
        .contains("am weißen Teil", "nicht an der Wurzel")
        .doesNotContain("oben");
  }

  @Test
  void oneHourIsNotHours() {
    for (String key : List.of("about.wear.hours", "wear.day.1", "wear.part.1")) {
      assertThat(PatientTexts.in(Locale.ENGLISH).text(key, "1")).contains("1 hour ");
      assertThat(PatientTexts.in(Locale.ENGLISH).text(key, "11")).contains("11 hours ");
      assertThat(PatientTexts.in(Locale.GERMAN).text(key, "1")).contains("1 Stunde ");
      assertThat(PatientTexts.in(Locale.GERMAN).text(key, "1,5")).contains("1,5 Stunden ");
    }
  }

  @Test
  void aFillingIsNeverReadAsAPattern() {
    PatientTexts texts = PatientTexts.in(Locale.ENGLISH);
    assertThat(texts.text("subtitle", "{1} O'Neil {0}")).isEqualTo("For {1} O'Neil {0}");
  }

  @Test
  void aLanguageThatIsNotThereIsEnglish() {
    assertThat(PatientTexts.in(Locale.JAPANESE).language()).isEqualTo("en");
    assertThat(PatientTexts.in(Locale.GERMANY).language()).isEqualTo("de");
    assertThat(PatientTexts.in(Locale.GERMAN).text("title")).isEqualTo("Deine Zahnspange");
  }

  private static double english(String text) {
    List<String> words = words(text);
    double syllables = words.stream().mapToInt(PatientTextsTest::englishSyllables).sum();
    return 0.39 * words.size() / sentences(text) + 11.8 * syllables / words.size() - 15.59;
  }

  private static int englishSyllables(String word) {
    String w = word.toLowerCase(Locale.ROOT).replaceAll("(?<=[^aeiouyl])e$|(?<=[^td])ed$", "");
    return Math.max(1, groups(w, "[aeiouy]+"));
  }

  private static double german(String text) {
    List<String> words = words(text);
    double longer =
        words.stream()
            .filter(w -> groups(w.toLowerCase(Locale.ROOT), "ie|ei|au|äu|eu|[aeiouyäöü]") >= 3)
            .count();
    return 0.2656 * words.size() / sentences(text) + 0.2744 * 100 * longer / words.size() - 1.693;
  }

  private static int groups(String word, String vowels) {
    return (int) Pattern.compile(vowels).matcher(word).results().count();
  }

  private static List<String> words(String text) {
    return Arrays.stream(text.split("[^\\p{L}'-]+")).filter(w -> !w.isBlank()).toList();
  }

  private static long sentences(String text) {
    return Arrays.stream(text.split("[.!?:]\\s+|[.!?]$")).filter(s -> !s.isBlank()).count();
  }

  /** The numbered texts, which are sentences; titles and labels are not counted. */
  private static String prose(String file) throws Exception {
    Properties texts = properties(file);
    StringBuilder prose = new StringBuilder();
    texts.stringPropertyNames().stream()
        .filter(key -> key.matches(".*\\.\\d"))
        .sorted()
        .forEach(key -> prose.append(texts.getProperty(key)).append(' '));
    return prose.toString().strip();
  }

  private static Properties properties(String file) throws Exception {
    Properties texts = new Properties();
    try (var in = PatientTexts.class.getResourceAsStream("/summary/" + file);
        var reader = new java.io.InputStreamReader(in, java.nio.charset.StandardCharsets.UTF_8)) {
      texts.load(reader);
    }
    return texts;
  }
}
