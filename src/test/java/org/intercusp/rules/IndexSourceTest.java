package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Each index names its own source, and what was recalled and not read again is told. */
class IndexSourceTest {

  private static final String OUTCOME =
      """
      {"id": "%s", "date": "%s", "phase": "%s", "source": "mouth",
       "examiner": {"system": "https://harbourlane.example/id/practitioner", "value": "P-07"}%s}""";

  private static final String FINDINGS =
      """
      , "findings": {"overjet": 8, "teethEdgeToEdge": 0, "teethInAnteriorCrossbite": 0,
        "overbite": 3, "overbiteCover": 0.3, "overbiteContact": "none", "lateralOpenBite": 0,
        "centreline": 0, "contacts": {"upper": [0, 0, 0, 0, 0], "lower": [0, 0, 0, 0, 0]},
        "worstDisplacement": 0,
        "buccal": {"right": {"anteroposterior": "full", "open": false, "transverse": "none"},
                   "left": {"anteroposterior": "full", "open": false, "transverse": "none"}},
        "crossbite": false, "crossbiteShift": 0, "lingualCrossbiteNoContact": false,
        "lips": "incompetent", "masticatoryDifficulty": false, "speechDifficulty": false,
        "missingTeeth": [], "impededTeeth": [], "tippedTeeth": [], "submergedTeeth": [],
        "supernumerary": false, "cleft": false, "aestheticComponent": 5,
        "upperCrowding": 0, "upperSpacing": 0}""";

  private static final String PAR =
      """
      , "scores": {"par": {"upperAnterior": 0, "lowerAnterior": 0, "buccalRight": 0,
       "buccalLeft": 0, "overjet": 1, "overbite": 0, "centreline": 0}}""";

  private static final String WEIGHTS_UK = "Eur J Orthod 1992;14:180-187";
  private static final String TABLES = "tables from memory of Eur J Orthod 1992;14:125-139";

  @Test
  void aRatingFromFindingsSaysThatItsTablesAreFromMemory() {
    assertThat(source("par-uk", outcome("O1", "start", FINDINGS)))
        .isEqualTo(WEIGHTS_UK + "; " + TABLES);
    assertThat(source("par-us", outcome("O1", "start", FINDINGS)))
        .startsWith("from memory of Am J Orthod Dentofacial Orthop 1995;107:172-176")
        .contains("Eur J Orthod 1992;14:125-139");
    assertThat(source("par-uk", outcome("O1", "start", PAR))).isEqualTo(WEIGHTS_UK);
  }

  @Test
  void aChangeDoesSoWhereEitherEndWasComputed() {
    String scored = outcome("O1", "start", PAR);
    String found = outcome("O2", "end", FINDINGS);
    for (String name : List.of("reduction", "reduction-percent", "improvement")) {
      assertThat(source("par-uk-" + name, scored + ", " + found)).endsWith(TABLES);
      assertThat(source("par-uk-" + name, scored + ", " + outcome("O2", "end", PAR)))
          .isEqualTo(WEIGHTS_UK);
    }
  }

  @Test
  void theDentalHealthComponentSaysThatSomeOfItsLettersAre() {
    assertThat(source("dental-health-component", outcome("O1", "start", FINDINGS)))
        .isEqualTo("Eur J Orthod 1989;11:309-320; some letters from memory of it");
  }

  @ParameterizedTest
  @CsvSource({
    "'\"dhc\": \"5a\"', 1989;11:309-320",
    "'\"par\": {\"upperAnterior\": 0, \"lowerAnterior\": 0, \"buccalRight\": 0, \"buccalLeft\": 0,"
        + " \"overjet\": 1, \"overbite\": 0, \"centreline\": 0}', 1992;14:125-139",
    "'\"icon\": {\"aesthetic\": 5, \"crowdingSpacing\": 0, \"crossbite\": 0, \"vertical\": 2,"
        + " \"buccalRight\": 0, \"buccalLeft\": 0}', 2000;27:149-162"
  })
  void aMismatchCitesTheIndexItIsIn(String score, String citation) {
    String outcome = outcome("O1", "start", FINDINGS + ", \"scores\": {" + score + "}");
    List<Finding> found =
        FoundIn.changes("outcome-score-mismatch", "\"/outcomes\": [" + outcome + "]");
    assertThat(found)
        .isNotEmpty()
        .allSatisfy(
            each -> assertThat(each.source().shown()).contains(citation).contains("memory"));
  }

  private static String outcome(String id, String phase, String rest) {
    String date = phase.equals("start") ? "2026-01-12" : "2026-07-13";
    return OUTCOME.formatted(id, date, phase, rest);
  }

  private static String source(String name, String outcomes) {
    Treatment treatment = SampleTreatments.changed("{\"/outcomes\": [" + outcomes + "]}");
    return new Examiner()
        .examine(treatment, treatment.asOf()).figures().stream()
            .filter(figure -> figure.name().equals(name))
            .map(Figure::source)
            .findFirst()
            .orElseThrow()
            .shown();
  }
}
