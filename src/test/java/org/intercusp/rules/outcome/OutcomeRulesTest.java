package org.intercusp.rules.outcome;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.Judged;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What lacks at the end of a treatment, and what has come back after a year. */
class OutcomeRulesTest {

  private static final String SCORED =
      """
      {"id": "%s", "date": "%s", "phase": "%s", "source": "mouth",
       "examiner": {"system": "https://harbourlane.example/id/practitioner", "value": "P-07"},
       "scores": {%s}}""";

  private static final String PAR =
      """
      "par": {"upperAnterior": 1, "lowerAnterior": 1, "buccalRight": 0, "buccalLeft": 0,
       "overjet": 1, "overbite": 0, "centreline": 0}""";

  private static final String DHC = "\"dhc\": \"4a\"";

  private static final String ICON =
      """
      "icon": {"aesthetic": 5, "crowdingSpacing": 0, "crossbite": 0, "vertical": 0,
       "buccalRight": 0, "buccalLeft": 0}""";

  private static final String COMPLETED =
      """
      "/completion": {"status": "completed", "decidedOn": "2026-07-13",
       "lastAttendedOn": "2026-07-13"}""";

  @ParameterizedTest(name = "{0} {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          PAR, DHC, ICON | PAR, DHC, ICON |
          PAR, DHC, ICON | DHC, ICON      | PAR
          PAR, DHC, ICON | PAR, ICON      | dental health component
          PAR, DHC, ICON | PAR, DHC       | ICON
          PAR, DHC, ICON | DHC            | PAR, ICON
          DHC            | PAR, DHC       |
          """)
  void everyScoreOfTheStartIsWantedAtTheEnd(String start, String end, String missing) {
    List<Finding> found =
        found(
            "outcome-missing",
            COMPLETED
                + ", \"/outcomes\": ["
                + SCORED.formatted("O1", "2026-01-12", "start", spelled(start))
                + ", "
                + SCORED.formatted("O2", "2026-07-13", "end", spelled(end))
                + "]");
    assertThat(found)
        .extracting(Finding::message)
        .isEqualTo(
            missing == null
                ? List.of()
                : List.of("Scored at the start and not at the end: " + missing + "."));
  }

  /** More than 1 mm from 2 mm; two readings have u = 0.408 mm. */
  @ParameterizedTest
  @CsvSource({"3.0, none", "3.01, borderline", "3.4, borderline", "3.41, clear"})
  void anOverjetThatCameBackByMoreThanAMillimetre(String later, String verdict) {
    List<Finding> found =
        found(
            "outcome-relapse",
            "\"/outcomes\": ["
                + OutcomeSamples.outcome("O2", "2026-03-09", "end", "2")
                + ", "
                + OutcomeSamples.outcome("O3", "2026-07-13", "retention-12mo", later)
                + "]");
    assertThat(found)
        .extracting(finding -> finding.message().contains("Borderline"))
        .isEqualTo(verdict.equals("none") ? List.of() : List.of(verdict.equals("borderline")));
  }

  private static String spelled(String scores) {
    return scores.replace("ICON", ICON).replace("DHC", DHC).replace("PAR", PAR);
  }

  private static List<Finding> found(String code, String changes) {
    Treatment treatment = SampleTreatments.changed("{" + changes + "}");
    return new Examiner()
        .examine(treatment, treatment.asOf()).findings().stream()
            .map(Judged::finding)
            .filter(finding -> finding.code().equals(code))
            .toList();
  }
}
