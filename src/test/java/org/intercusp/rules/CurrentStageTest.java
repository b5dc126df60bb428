package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.intercusp.analysis.stage.CurrentStage;
import org.intercusp.treatment.Stage;
import org.junit.jupiter.api.Test;

/**
 * The stage a patient is in, on the base of the samples: S1 active to 2026-11-24, S2 support to
 * 2027-03-24, S3 retention to 2027-12-24; last review in S1 on 2026-07-13.
 */
class CurrentStageTest {

  private static final String LATE = "2027-04-01";
  private static final String RETAINER =
      "{\"id\": \"A2\", \"type\": \"retainer\", \"orderedOn\": \"2027-02-01\", \"fittedOn\": \"%s\","
          + " \"clasps\": [], \"incisalCapping\": false, \"material\": \"acrylic\"}";

  @Test
  void aLatePatientIsStillInTheStageOfTheLastReview() {
    assertThat(on("{}", "2026-07-20")).isEqualTo("S1");
    assertThat(on("{}", LATE)).isEqualTo("S1");
    assertThat(on("{}", "2029-01-01")).isEqualTo("S1");
  }

  @Test
  void anEarlyPatientIsInTheStageOfTheLastReviewToo() {
    assertThat(on("{\"/reviews/3/stageId\": \"S2\"}", "2026-07-20")).isEqualTo("S2");
    assertThat(on("{\"/reviews/3/stageId\": \"S2\"}", "2026-07-12")).isEqualTo("S1");
  }

  @Test
  void beforeTheFirstReviewTheDatesCount() {
    assertThat(on("{\"/reviews\": []}", "2026-03-01")).isEqualTo("S1");
    assertThat(on("{\"/reviews\": []}", LATE)).isEqualTo("S3");
    assertThat(on("{}", "2026-02-25")).isEqualTo("S1");
    assertThat(on("{}", "2026-02-20")).isEqualTo("none");
  }

  @Test
  void theApplianceOfALaterStageFittedSinceTheReviewBeginsThatStage() {
    assertThat(on(retainer("2027-03-25"), LATE)).isEqualTo("S3");
    assertThat(on(retainer("2026-07-13"), "2026-07-20")).isEqualTo("S3");
    assertThat(on(retainer("2027-04-01"), LATE)).as("fitted that day").isEqualTo("S3");
    assertThat(on(retainer("2027-04-02"), LATE)).as("not fitted yet").isEqualTo("S1");
    assertThat(on(retainer("2026-07-12"), LATE)).as("fitted before").isEqualTo("S1");
  }

  /** A spare that no later stage names says nothing of the stage, and hides none. */
  @Test
  void anApplianceThatNoLaterStageNamesHidesNone() {
    String spare = RETAINER.formatted("2027-03-30").replace("A2", "A3");
    String both =
        """
        {"/stages/0/applianceId": null, "/stages/2/applianceId": "A2", "/appliances": [%s, %s]}"""
            .formatted(RETAINER.formatted("2027-03-25"), spare);
    assertThat(on(both, LATE)).isEqualTo("S3");
  }

  @Test
  void aFittedApplianceCountsMoreThanTheDates() {
    String support = retainer("2027-03-25").replace("/stages/2/", "/stages/1/");
    assertThat(on(support, LATE)).isEqualTo("S2");
  }

  @Test
  void theDatesChooseBetweenStagesWithOneAppliance() {
    String both = retainer("2027-03-20").replace("}}", "}, \"/stages/1/applianceId\": \"A2\"}");
    assertThat(on(both, "2027-03-21")).isEqualTo("S2");
    assertThat(on(both, LATE)).isEqualTo("S3");
    assertThat(on(both, "2028-04-01")).isEqualTo("S3");
  }

  @Test
  void oneApplianceForEveryStageSaysNothingOfTheStage() {
    String one =
        "{\"/stages/1/applianceId\": \"A1\", \"/stages/2/applianceId\": \"A1\","
            + " \"/appliances/0/fittedOn\": \"2026-07-13\"}";
    assertThat(on(one, LATE)).isEqualTo("S1");
  }

  private static String retainer(String fittedOn) {
    return "{\"/stages/2/applianceId\": \"A2\", \"/appliances/-\": "
        + RETAINER.formatted(fittedOn)
        + "}";
  }

  private static String on(String changes, String day) {
    return CurrentStage.on(SampleTreatments.changed(changes), LocalDate.parse(day))
        .map(Stage::id)
        .orElse("none");
  }
}
