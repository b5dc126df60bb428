package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.intercusp.analysis.stage.ScrewTurns;
import org.intercusp.analysis.stage.Worn;
import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/**
 * Which appliance is worn and whose turns are told, on the base of the samples: A1 fitted
 * 2026-02-24, here with a screw of 20 turns, one in seven days, and four turns told at each review.
 */
class ScrewTurnsTest {

  private static final String TURNED =
      """
      "/appliances/0/screw": {"arch": "upper", "turn": 0.25, "plannedTurns": 20, "daysPerTurn": 7},
      "/reviews/0/screwTurns": 4, "/reviews/1/screwTurns": 4, "/reviews/2/screwTurns": 4,
      "/reviews/3/screwTurns": 4
      """;

  private static final String SECOND =
      """
      "/appliances/-": {"id": "A2", "type": "twin-block", "biteId": "B1",
        "orderedOn": "2026-02-05", "fittedOn": "%s", "clasps": [], "incisalCapping": true,
        "material": "acrylic",
        "screw": {"arch": "upper", "turn": 0.25, "plannedTurns": 9, "daysPerTurn": 7}}
      """;

  @Test
  void turnsCountFromTheFittingToTheDay() {
    Treatment treatment = treatment(TURNED);
    assertThat(done(treatment, 0, "2026-07-13")).isEqualTo(16);
    assertThat(done(treatment, 0, "2026-07-12")).isEqualTo(12);
    assertThat(done(treatment(TURNED + ", \"/appliances/0/fittedOn\": \"2026-03-09\""), 0))
        .as("a first screw, told of on the day it is fitted")
        .isEqualTo(16);
    assertThat(done(treatment(TURNED + ", \"/appliances/0/fittedOn\": \"2026-03-10\""), 0))
        .isEqualTo(12);
    assertThat(done(treatment(TURNED + ", \"/appliances/0/fittedOn\": null"), 0)).isZero();
  }

  /** What the review of 2026-06-01 tells was turned on the screw worn until then. */
  @Test
  void aScrewThatFollowsAnotherBeginsTheDayAfter() {
    Treatment following = treatment(TURNED + ", " + SECOND.formatted("2026-06-01"));
    assertThat(done(following, 1, "2026-07-13")).isEqualTo(4);
    Treatment together = treatment(TURNED + ", " + SECOND.formatted("2026-02-24"));
    assertThat(done(together, 1, "2026-07-13")).as("fitted on one day").isEqualTo(16);
  }

  /** Six weeks from the last review hold six turns; the plan has four left. */
  @Test
  void noMoreTurnsAreDueThanThePlanHasLeft() {
    LocalDate visit = LocalDate.parse("2026-08-24");
    Treatment treatment = treatment(TURNED);
    assertThat(due(treatment, visit)).isEqualTo(4);
    assertThat(due(treatment, LocalDate.parse("2026-08-02"))).isEqualTo(2);
    assertThat(due(treatment, LocalDate.parse("2026-08-03"))).isEqualTo(3);
    assertThat(due(treatment(TURNED + ", \"/appliances/0/screw/plannedTurns\": 3"), visit))
        .isZero();
    assertThat(due(treatment, LocalDate.parse("2026-07-01"))).as("a visit before").isZero();
  }

  /** Reviews before the fitting tell nothing of its screw: two weeks hold two turns. */
  @Test
  void turnsOfAnApplianceFittedAfterTheLastReviewCountFromItsFitting() {
    Treatment fitted = treatment(TURNED + ", \"/appliances/0/fittedOn\": \"2026-07-20\"");
    assertThat(due(fitted, LocalDate.parse("2026-08-03"))).isEqualTo(2);
  }

  /** The reader takes a turn in 1 to 60 days. */
  @Test
  void aTurnADayIsAPlanToo() {
    Treatment daily = treatment(TURNED + ", \"/appliances/0/screw/daysPerTurn\": 1");
    assertThat(due(daily, LocalDate.parse("2026-07-16"))).isEqualTo(3);
  }

  @Test
  void theApplianceFittedLastIsWornAndOfTwoOnOneDayTheLaterInTheRecord() {
    Treatment later = treatment(SECOND.formatted("2026-06-01"));
    assertThat(worn(later, "2026-05-31")).isEqualTo("A1");
    assertThat(worn(later, "2026-06-01")).isEqualTo("A2");
    assertThat(worn(later, "2026-02-23")).isEqualTo("none");
    assertThat(worn(treatment(SECOND.formatted("2026-02-24")), "2026-02-24")).isEqualTo("A2");
    assertThat(worn(treatment(SECOND.formatted("2026-02-23")), "2026-02-24")).isEqualTo("A1");
  }

  private static Treatment treatment(String changes) {
    return SampleTreatments.changed("{" + changes + "}");
  }

  private static int done(Treatment treatment, int appliance) {
    return done(treatment, appliance, "2026-07-13");
  }

  private static int done(Treatment treatment, int appliance, String until) {
    return ScrewTurns.done(
        treatment, treatment.appliances().get(appliance), LocalDate.parse(until));
  }

  private static int due(Treatment treatment, LocalDate visit) {
    return ScrewTurns.due(
            treatment, treatment.appliances().get(0), LocalDate.parse("2026-07-20"), visit)
        .result()
        .orElseThrow();
  }

  private static String worn(Treatment treatment, String day) {
    return Worn.on(treatment, LocalDate.parse(day)).map(Appliance::id).orElse("none");
  }
}
