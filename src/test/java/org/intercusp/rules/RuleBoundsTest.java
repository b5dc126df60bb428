package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What lies exactly at a limit, and what a rule must leave aside to be right. */
class RuleBoundsTest {

  private static final String FILM =
      """
      {"id": "%s", "takenOn": "%s", "jaw": "habitual", "gonion": "constructed",
       "landmarks": {"Go": [0, 0], "Me": [60, 0], "Lia": [50, 8], "Li": [%s, 30]}}""";

  private static final String STEEP = FILM.formatted("F1", "2026-01-12", "54.0");
  private static final String UPRIGHT = FILM.formatted("F2", "2026-01-20", "53.0");

  private static final String END =
      """
      {"id": "O1", "date": "2026-07-13", "phase": "start", "source": "mouth",
       "examiner": {"system": "https://harbourlane.example/id/practitioner", "value": "P-07"},
       "scores": {"dhc": "1"}},
      {"id": "O2", "date": "2026-07-13", "phase": "end", "source": "mouth", "repeatOf": "O1",
       "examiner": {"system": "https://harbourlane.example/id/practitioner", "value": "P-07"},
       "scores": {"dhc": "1"}}""";

  private static final String LATER_BITE =
      """
      {"id": "B2", "recordedOn": "2026-06-01", "overjetHabitual": 5, "overbiteHabitual": 0.5,
       "overjetInBite": 1, "habitualReading": 1, "registeredReading": 5, "maximumReading": 12,
       "incisalClearance": 2, "upperIncisorHeight": 8, "lowerIncisorHeight": 7}""";

  private static final String STILL =
      """
      "/bites/0/overjetHabitual": 8, "/reviews/0/overjet": 8, "/reviews/1/overjet": 8,
       "/reviews/2/overjet": 8, "/reviews/3": null""";

  private static final String MET =
      """
      "/reviews/2/overjet": 2, "/reviews/3/overjet": 2, "/reviews/2/overjetRetruded": 2,
       "/reviews/3/overjetRetruded": 2, "/reviews/2/molarRelation": {"right": 0, "left": %s},
       "/reviews/3/molarRelation": {"right": 0, "left": 0}""";

  @ParameterizedTest(name = "{0} {1} {2}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          stage-length | /stages/1/months | "/stages/0/months": 7, "/stages/1/kind": "active", "/stages/1/months": 6
          stage-trim-open-bite | /stages/0/trimming | "/diagnosis/overbite": 1
          stage-trim-open-bite | /stages/0/trimming | "/reviews/3/overbite": 1, "/reviews/3/posteriorOpenBite": {"right": 0, "left": 0.5}
          bite-height-band | /bites/1/incisalClearance | "/appliances": [], "/stages": [], "/reviews": [], "/bites/-": SAME_DAY
          review-breakage | /reviews/3/breakages | "/reviews/3/breakages": [{"applianceId": "A1", "part": "clasp", "action": "repaired"}, {"applianceId": "A1", "part": "block", "action": "repaired"}]
          review-progress-slow | /reviews/2/overjet | STILL, "/reviews/2/date": "2026-05-19"
          review-wear-doubt | /reviews/1/retractionTenderness | STILL, "/reviews/1/date": "2026-04-21", "/reviews/1/retractionTenderness": "absent", "/reviews/2": null
          review-joint | /reviews/3/jointSigns/0 | "/reviews/3/jointSigns": ["locking"]
          review-joint | /reviews/3/jointSigns/0 | "/reviews/3/jointSigns": ["limited-opening"]
          diagnosis-joint | /diagnosis/jointSigns/0 | "/diagnosis/jointSigns": ["limited-opening"]
          diagnosis-joint | /diagnosis/jointSigns/0 | "/diagnosis/jointSigns": ["pain"]
          appliance-clasp-deciduous | /appliances/0/clasps/3/tooth | "/diagnosis/teethPresent/16": "75", "/appliances/0/clasps/3/tooth": "75", "/patient/birthDate": "2017-07-20"
          appliance-retention | /appliances/0/clasps | "/appliances/0/clasps/1": {"tooth": "16", "kind": "delta", "wire": 0.7}
          outcome-missing | /completion/status | "/completion": {"status": "lost-to-follow-up", "decidedOn": "2026-07-13", "lastAttendedOn": "2026-07-13"}, "/outcomes": [END]
          date-order | /patient/consent/withdrawnOn | "/patient/consent/withdrawnOn": "2026-07-21"
          date-order | /films/0/takenOn | "/films": [FILM-AHEAD]
          bite-stale | /appliances/0/orderedOn | "/bites/0/recordedOn": "2025-12-22", "/diagnosis/assessedOn": "2025-12-22"
          """)
  void isFound(String code, String pointer, String changes) {
    assertThat(FoundIn.changes(code, spelled(changes)))
        .extracting(finding -> finding.pointer().text())
        .containsExactly(pointer);
  }

  @ParameterizedTest(name = "{0} {1}")
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      textBlock =
          """
          stage-length | "/stages/0/months": 6
          stage-length | "/stages/1/months": 3
          stage-length | "/stages/1/months": 6
          stage-length | "/stages/2/months": 9
          stage-length | "/stages/0/months": 6, "/stages/1/kind": "active", "/stages/1/months": 5
          stage-trim-open-bite | "/bites/-": LATER_BITE
          bite-stale | "/bites/0/recordedOn": "2025-12-23", "/diagnosis/assessedOn": "2025-12-22"
          bite-stale | "/bites/0/recordedOn": "2025-12-01", "/diagnosis/assessedOn": "2025-12-01", "/appliances/0/type": "anterior-inclined-plane"
          bite-height-occlusion | "/reviews/3/overbite": 2, "/completion": {"status": "patient-stopped", "decidedOn": "2026-07-13", "lastAttendedOn": "2026-07-13"}
          appliance-capping | "/appliances/0/incisalCapping": false, "/films": [STEEP-LATER]
          appliance-capping | "/appliances/0/incisalCapping": false, "/films": [STEEP-AGAIN, UPRIGHT]
          appliance-allergy | "/patient/allergies": ["nickel"], "/appliances/0/clasps": [], "/appliances/0/labialBow": null
          review-progress-slow | STILL, "/reviews/2/date": "2026-05-18"
          review-wear-doubt | STILL, "/reviews/1/date": "2026-04-20", "/reviews/1/retractionTenderness": "absent", "/reviews/2": null
          review-stage-ready | NOT-LEFT
          review-stage-ready | "/reviews/2/posteriorOpenBite": {"right": 0, "left": 0}, "/reviews/3/stageId": "S2", "/reviews/3/posteriorOpenBite": {"right": 0, "left": 0}
          review-joint | "/reviews/3/jointSigns": ["click", "crepitus"]
          """)
  void isNotFound(String code, String changes) {
    assertThat(FoundIn.changes(code, spelled(changes))).isEmpty();
  }

  @Test
  void aSlowCourseIsBorderlineWhileItsIntervalHoldsTheLimit() {
    assertThat(FoundIn.changes("review-progress-slow", spelled("STILL, " + EIGHTY_FOUR)))
        .singleElement()
        .extracting(Finding::message)
        .satisfies(said -> assertThat(said).doesNotContain("Borderline"));
    assertThat(
            FoundIn.changes(
                "review-progress-slow", spelled("STILL, " + EIGHTY_FOUR + ", " + UP_AND_DOWN)))
        .singleElement()
        .extracting(Finding::message)
        .satisfies(said -> assertThat(said).contains("Borderline"));
  }

  private static final String EIGHTY_FOUR = "\"/reviews/2/date\": \"2026-05-19\"";
  private static final String UP_AND_DOWN = "\"/reviews/0/overjet\": 7, \"/reviews/1/overjet\": 9";

  @Test
  void anErrorNobodyAcceptedStopsOrdersAndAWarningDoesNot() {
    assertThat(mayOrder("\"/bites/0/registeredReading\": 9.5")).isFalse();
    assertThat(mayOrder("\"/reviews/3/jointSigns\": [\"locking\"]")).isFalse();
    assertThat(mayOrder("\"/patient/allergies\": null")).isTrue();
  }

  private static boolean mayOrder(String changes) {
    Treatment treatment = SampleTreatments.changed("{" + changes + "}");
    return new Examiner().examine(treatment, treatment.asOf()).mayOrderAppliance();
  }

  private static String spelled(String changes) {
    return changes
        .replace("LATER_BITE", LATER_BITE)
        .replace(
            "SAME_DAY",
            LATER_BITE
                .replace("2026-06-01", "2026-02-02")
                .replace("\"lowerIncisorHeight\": 7", "\"lowerIncisorHeight\": 9"))
        .replace("NOT-LEFT", MET.formatted("0.5"))
        .replace("STILL", STILL)
        .replace("FILM-AHEAD", FILM.formatted("F1", "2026-07-21", "53.0"))
        .replace("STEEP-LATER", FILM.formatted("F1", "2026-02-04", "54.0"))
        .replace("STEEP-AGAIN", repeat())
        .replace("UPRIGHT", UPRIGHT)
        .replace("END", END);
  }

  /** A second tracing of the film before, read otherwise. */
  private static String repeat() {
    return STEEP
        .replace("\"F1\", \"takenOn\": \"2026-01-12\"", "\"F3\", \"takenOn\": \"2026-01-20\"")
        .replace("\"jaw\"", "\"repeatOf\": \"F2\", \"jaw\"");
  }
}
