package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.intercusp.analysis.trim.TrimDue;
import org.intercusp.analysis.trim.Trimmed;
import org.intercusp.analysis.trim.TrimmingPlan.When;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Whether blocks are trimmed and how many visits of the plan are over; common practice. */
class TrimmedTest {

  @Test
  void theSmallerOverbiteDecides() {
    assertThat(atStart("4.5", "1")).isEqualTo(When.NEVER);
    assertThat(atStart("1", "4.5")).isEqualTo(When.NEVER);
    assertThat(atStart("4", "4.5")).isEqualTo(When.FROM_SECOND_REVIEW);
    assertThat(atStart("4.5", "3.9")).isEqualTo(When.AFTER_OVERJET_GOAL);
  }

  private static Trimmed trimmed(Treatment treatment) {
    return new Trimmed(treatment, treatment.appliances().get(0), Length.of("1"));
  }

  private static When atStart(String diagnosed, String registered) {
    Treatment treatment =
        SampleTreatments.changed(
            "{\"/diagnosis/overbite\": %s, \"/bites/0/overbiteHabitual\": %s}"
                .formatted(diagnosed, registered));
    return trimmed(treatment).atStart();
  }

  /** The base has four planned reviews since the fitting, the last on 2026-07-13. */
  @Test
  void plannedReviewsOfTheStageFromTheFittingToTheDayAreVisitsOfThePlan() {
    assertThat(visit("{}", "2026-07-13")).startsWith("visit 5 ");
    assertThat(visit("{}", "2026-07-12")).startsWith("visit 4 ");
    assertThat(visit("{\"/reviews/2/kind\": \"urgent\"}", "2026-07-13")).startsWith("visit 4 ");
    assertThat(visit("{\"/reviews/2/stageId\": \"S2\"}", "2026-07-13")).startsWith("visit 4 ");
    assertThat(visit("{\"/reviews/0/date\": \"2026-02-24\"}", "2026-07-13")).startsWith("visit 5 ");
    assertThat(visit("{\"/reviews/0/date\": \"2026-02-23\"}", "2026-07-13")).startsWith("visit 4 ");
  }

  /** A molar clearance of 0.5 mm meets at the third visit of the plan, week 14. */
  @Test
  void afterTheLastVisitOfThePlanTheMolarsShouldMeet() {
    String low = "{\"/bites/0/molarClearance\": 0.5}";
    assertThat(visit(low, "2026-05-31")).isEqualTo("visit 3 of the trimming plan");
    assertThat(visit(low, "2026-06-01")).isEqualTo("the molars should meet by now");
    assertThat(visit(low, "2026-07-13")).isEqualTo("the molars should meet by now");
  }

  /** Nothing is trimmed or erupts before: the first trim makes the whole clearance of 1.5 mm. */
  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      quoteCharacter = '~',
      value = {
        "'/reviews/3/overjet': 2 | 1.5 | visit 1 of the trimming plan",
        "'/reviews/2/overjet': 2, '/reviews/3/overjet': 2 | 0.5 | visit 2 of the trimming plan",
        "'/reviews/0/overjet': 2, '/reviews/3/overjet': 2 | 0.5 | visit 4 of the trimming plan",
        "'/reviews/0/overjet': 2 | 0 | not before the overjet goal is reached",
        "'/reviews/2/overjet': 2, '/reviews/3/overjet': 2, '/stages/0/trimming/fromReview': 5"
            + " | 1.5 | visit 1 of the trimming plan",
        "'/reviews/2/overjet': 2, '/reviews/3/overjet': 2, '/stages/0/trimming/fromReview': 6"
            + " | 0 | not before review 6",
        "'/stages/0/goals': [] | 0 | no overjet goal says when to begin",
        "'/stages/0/goals': [{'measure': 'overjet', 'comparator': 'ge', 'target': 0},"
            + " {'measure': 'overjet', 'comparator': 'le', 'target': 2}]"
            + " | 0 | not before the overjet goal is reached"
      })
  void afterTheGoalThePlanIsCountedFromTheReviewThatMetIt(
      String changes, String amount, String why) {
    Treatment treatment =
        SampleTreatments.changed(
            "{\"/diagnosis/overbite\": 3, " + changes.replace('\'', '"') + "}");
    TrimDue due =
        TrimDue.of(trimmed(treatment), LocalDate.parse("2026-07-13")).result().orElseThrow();
    assertThat(due.why()).isEqualTo(why);
    assertThat(due.amount().value()).isEqualByComparingTo(amount);
  }

  /** The same appliance in two stages that trim it: the fourth review is of the second. */
  @Test
  void thePlanGoesOnFromOneStageToTheNext() {
    String second =
        """
        {"/stages/1": {"id": "S2", "kind": "active", "applianceId": "A1", "months": 3,
          "reviewWeeks": 6, "trimming": {"perVisit": 1.5, "fromReview": 2}, "goals": []},
         "/reviews/3/stageId": "S2"}""";
    assertThat(visit(second, "2026-07-13")).isEqualTo("visit 5 of the trimming plan");
  }

  private static String visit(String changes, String day) {
    Treatment treatment = SampleTreatments.changed(changes);
    return TrimDue.of(trimmed(treatment), LocalDate.parse(day)).result().orElseThrow().why();
  }
}
