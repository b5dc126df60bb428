package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.trim.TrimDue;
import org.intercusp.analysis.trim.Trimmed;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/**
 * Which stage and which day the trimming plan of an appliance has, on the base of the samples: four
 * planned reviews, the last on 2026-07-13, since A1 was fitted on 2026-02-24. One made in place of
 * another to the same bite goes on with its plan (common practice, no source).
 */
class TrimmedRemadeTest {

  private static final String DAY = "2026-07-13";

  /** A2 in place of A1, named by no stage. */
  private static final String REMADE =
      """
      "/appliances/-": {"id": "A2", "type": "twin-block", "biteId": "%s",
        "orderedOn": "2026-05-20", %s "clasps": [], "incisalCapping": true,
        "material": "acrylic", "lab": {"requiredOn": "2026-06-01", "records": "scan",
        "disinfected": true, "remakeOf": "A1", "retentionYears": 10}}""";

  private static final String FITTED = "\"fittedOn\": \"2026-06-02\",";

  private static final String SECOND_BITE =
      """
      "/bites/-": {"id": "B2", "recordedOn": "2026-05-19", "overjetHabitual": 6,
        "overbiteHabitual": 4, "overjetInBite": 1, "habitualReading": 1, "registeredReading": 6,
        "maximumReading": 12, "incisalClearance": 2, "molarClearance": 4,
        "upperIncisorHeight": 11, "lowerIncisorHeight": 9}, """;

  @Test
  void oneMadeToTheSameBiteGoesOnWithThePlan() {
    assertThat(why(REMADE.formatted("B1", FITTED), 1)).isEqualTo("visit 5 of the trimming plan");
  }

  @Test
  void oneThatIsNotFittedYetIsDueWhatTheOneBeforeIsDue() {
    assertThat(why(REMADE.formatted("B1", ""), 1)).isEqualTo("visit 5 of the trimming plan");
  }

  @Test
  void oneMadeToAnotherBiteBeginsAnew() {
    TrimDue due = due(SECOND_BITE + REMADE.formatted("B2", FITTED), 1).result().orElseThrow();
    assertThat(due.why()).isEqualTo("visit 2 of the trimming plan");
    assertThat(due.block()).as("the molar clearance of its own bite").isEqualTo(Length.of("4"));
  }

  @Test
  void aBiteBesideItsOwnSaysNothingOfIt() {
    String bites = SECOND_BITE + "\"/bites/0/molarClearance\": null";
    assertThat(due(bites, 0).reason()).contains("molarClearance");
    assertThat(due("\"/bites/0/molarClearance\": 0", 0).reason()).contains("molarClearance");
  }

  /** The second stage trims A2, which is not to the point of A1. */
  @Test
  void theStageOfAnotherApplianceDoesNotTrimIt() {
    String other =
        REMADE.formatted("B1", FITTED).replace("\"remakeOf\": \"A1\", ", "")
            + """
            , "/stages/0/trimming": null, "/stages/1/applianceId": "A2",
            "/stages/1/trimming": {"perVisit": 1, "fromReview": 1}""";
    assertThat(due(other, 0).reason()).contains("no stage with this appliance plans trimming");
    assertThat(due(other, 1).result()).isPresent();
  }

  /** Overjet goals of 5 and 2 mm; 4.5 mm at the last review meets the first alone. */
  @Test
  void theGoalThatTrimmingWaitsForIsOfTheStageUnderWay() {
    String two =
        """
        "/diagnosis/overbite": 3, "/reviews/3/stageId": "%s",
        "/stages/0/goals": [{"measure": "overjet", "comparator": "le", "target": %s}],
        "/stages/1": {"id": "S2", "kind": "active", "applianceId": "A1", "months": 3,
          "reviewWeeks": 6, "trimming": {"perVisit": 1.5, "fromReview": 2},
          "goals": [{"measure": "overjet", "comparator": "le", "target": %s}]}""";
    String waits = "not before the overjet goal is reached";
    assertThat(why(two.formatted("S1", "5", "2"), 0)).isEqualTo("visit 1 of the trimming plan");
    assertThat(why(two.formatted("S2", "5", "2"), 0)).isEqualTo(waits);
    assertThat(why(two.formatted("S1", "2", "5"), 0)).isEqualTo(waits);
    assertThat(why(two.formatted("S3", "2", "5"), 0))
        .as("in a stage that does not trim: the goal of the last that does")
        .isEqualTo("visit 1 of the trimming plan");
  }

  @Test
  void beforeTheFirstReviewTrimmingWaitsForTheGoal() {
    assertThat(why("\"/diagnosis/overbite\": 3, \"/reviews\": []", 0))
        .isEqualTo("not before the overjet goal is reached");
  }

  private static String why(String changes, int appliance) {
    return due(changes, appliance).result().orElseThrow().why();
  }

  private static Reckoned<TrimDue> due(String changes, int appliance) {
    String ended = changes.endsWith(",") ? changes.substring(0, changes.length() - 1) : changes;
    Treatment treatment = SampleTreatments.changed("{" + ended + "}");
    Trimmed trimmed = new Trimmed(treatment, treatment.appliances().get(appliance), Length.of("1"));
    return TrimDue.of(trimmed, LocalDate.parse(DAY));
  }
}
