package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Where a finding of the incisors on films begins and stops being borderline, worked by hand from
 * the law of propagation (JCGM 100:2008, 5.1.2). Each coordinate of a landmark has a standard
 * uncertainty of 0.5 mm / sqrt(3) = 0.2887 mm; a line of length d between two landmarks turns by
 * 0.2887 sqrt(2) / d radians. The mandibular plane is 60 mm long and level, so L1-Md is 90° and the
 * lean of the incisor, whose tip lies 22 mm above its apex.
 */
class FilmRuleErrorTest {

  private static final String BORDERLINE =
      " Borderline: the distance to the limit is within the reading error.";

  private static final String FILM =
      """
      {"id": "%s", "takenOn": "%s", "jaw": "habitual", "gonion": "constructed",
       "landmarks": {"Go": [0, 0], "Me": [60, 0], "Lia": [50, 8], "Li": [%s, 30]}}""";

  /** The limit of 99° is at 53.484; 1.117° more, one standard uncertainty, at 53.925. */
  @ParameterizedTest
  @CsvSource({"53.48, ''", "53.49, borderline", "53.92, borderline", "53.93, clear"})
  void incisorsForwardBeforeAnAppliance(String tip, String found) {
    String film = FILM.formatted("F1", "2026-01-12", tip);
    assertVerdict(
        "appliance-capping",
        "{\"/appliances/0/incisalCapping\": false, \"/films\": [" + film + "]}",
        found);
  }

  /** From 17.650° (57); 5° more is at 59.1803; 1.507° above, of both films, at 59.867. */
  @ParameterizedTest
  @CsvSource({"59.18, ''", "59.19, borderline", "59.86, borderline", "59.88, clear"})
  void incisorsForwardSinceTheFirstFilm(String tip, String found) {
    String first = FILM.formatted("F1", "2026-01-12", "57");
    String second = FILM.formatted("F2", "2026-07-13", tip);
    assertVerdict("review-incisors", "{\"/films\": [" + first + ", " + second + "]}", found);
  }

  /** A second tracing is no film of its own, and one without the incisor tells nothing. */
  @Test
  void onlyFilmsThatShowTheIncisorAreCompared() {
    String first = FILM.formatted("F1", "2026-01-12", "57");
    String again =
        FILM.formatted("F2", "2026-07-13", "60")
            .replace("\"jaw\"", "\"repeatOf\": \"F1\", \"jaw\"");
    assertVerdict("review-incisors", films(first, again), "");
    String forward = FILM.formatted("F3", "2026-06-01", "60");
    String without = FILM.formatted("F4", "2026-07-14", "60").replace("\"Lia\": [50, 8], ", "");
    assertVerdict("review-incisors", films(first, forward, without), "clear");
    assertVerdict(
        "review-incisors",
        films(without.replace("2026-07-14", "2026-01-02"), first, forward),
        "clear");
  }

  /** The steep film of January tells; the later one does not show the incisor's apex. */
  @Test
  void theLastFilmThatShowsTheIncisorAsksForCapping() {
    String steep = FILM.formatted("F1", "2026-01-12", "54");
    String without = FILM.formatted("F2", "2026-02-01", "53").replace("\"Lia\": [50, 8], ", "");
    String changes =
        films(steep, without).replaceFirst("\\{", "{\"/appliances/0/incisalCapping\": false, ");
    assertVerdict("appliance-capping", changes, "clear");
  }

  private static String films(String... films) {
    return "{\"/films\": [" + String.join(", ", films) + "]}";
  }

  private static void assertVerdict(String code, String changes, String expected) {
    Treatment treatment = SampleTreatments.changed(changes);
    List<String> messages =
        new Examiner()
            .examine(treatment, treatment.asOf()).findings().stream()
                .map(Judged::finding)
                .filter(finding -> finding.code().equals(code))
                .map(Finding::message)
                .toList();
    switch (expected) {
      case "borderline" -> assertThat(messages).singleElement().asString().endsWith(BORDERLINE);
      case "clear" -> assertThat(messages).singleElement().asString().doesNotContain("Borderline");
      default -> assertThat(messages).isEmpty();
    }
  }
}
