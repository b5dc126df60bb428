package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.intercusp.analysis.progress.OverjetCourse;
import org.intercusp.analysis.progress.OverjetGoal;
import org.intercusp.treatment.Review;
import org.junit.jupiter.api.Test;

/** Which overjets make the course of a treatment, on the base of the samples. */
class OverjetCourseTest {

  @Test
  void reviewsFromTheDayOfFittingToTheDayAskedForCount() {
    assertThat(course("{}", "2026-07-13").reviews())
        .extracting(Review::id)
        .containsExactly("R1", "R2", "R3", "R4");
    assertThat(course("{}", "2026-07-12").reviews()).extracting(Review::id).doesNotContain("R4");
    assertThat(course("{\"/reviews/0/date\": \"2026-02-24\"}", "2026-07-13").reviews())
        .extracting(Review::id)
        .startsWith("R1");
    assertThat(course("{\"/reviews/0/date\": \"2026-02-23\"}", "2026-07-13").reviews())
        .extracting(Review::id)
        .doesNotContain("R1");
  }

  /** Progress is of the active treatment: the stage of R4 is support. */
  @Test
  void reviewsOfOtherStagesDoNotCount() {
    assertThat(course("{\"/reviews/3/stageId\": \"S2\"}", "2026-07-13").reviews())
        .extracting(Review::id)
        .containsExactly("R1", "R2", "R3");
  }

  @Test
  void aRateUpToAReviewHoldsThatReview() {
    OverjetCourse course = course("{}", "2026-07-13");
    assertThat(course.progress(course.reviews().get(1)).result().orElseThrow().points()).hasSize(3);
    assertThat(course.progress().result().orElseThrow().points()).hasSize(5);
  }

  /** The second appliance has no bite: the overjet set at the fitting is that of the first. */
  @Test
  void theFirstFittingBeginsIt() {
    String later =
        """
        {"/appliances/-": {"id": "A2", "type": "anterior-inclined-plane",
          "orderedOn": "2026-02-05", "fittedOn": "2026-05-01", "clasps": [],
          "incisalCapping": false, "material": "acrylic"}, "/diagnosis/overjet": 9}
        """;
    assertThat(course(later, "2026-07-13").fitted()).isEqualTo("2026-02-24");
    assertThat(course(later, "2026-07-13").atFitting().value()).isEqualByComparingTo("8");
    String earlier = later.replace("2026-05-01", "2026-02-20");
    assertThat(course(earlier, "2026-07-13").fitted()).isEqualTo("2026-02-20");
    assertThat(course(earlier, "2026-07-13").atFitting().value()).isEqualByComparingTo("9");
  }

  /** Two active stages down to 5 and 2.5 mm, then support; R4 is of the stage given. */
  @Test
  void theGoalIsThatOfTheActiveStageUnderWayOrOver() {
    assertThat(goal("S1", "2026-07-13")).isEqualByComparingTo("5");
    assertThat(goal("S2", "2026-07-13")).isEqualByComparingTo("2.5");
    assertThat(goal("S3", "2026-07-13")).as("of the last active one").isEqualByComparingTo("5");
    assertThat(goal("S1", "2026-02-01")).as("of the first to come").isEqualByComparingTo("5");
  }

  /** R3 was seen in the second active stage, R4 in support. */
  @Test
  void onceTheActiveStagesAreOverTheGoalIsOfTheLastReviewedOne() {
    String over =
        GOALS.formatted("S3").replaceFirst("\\}\\s*$", ", \"/reviews/2/stageId\": \"S2\"}");
    assertThat(goalOf(over, "2026-07-13")).isEqualByComparingTo("2.5");
  }

  private static final String GOALS =
      """
      {"/stages/0/goals": [{"measure": "overjet", "comparator": "le", "target": 5}],
       "/stages/1": {"id": "S2", "kind": "active", "months": 3, "reviewWeeks": 6,
         "goals": [{"measure": "overjet", "comparator": "le", "target": 2.5}]},
       "/stages/2": {"id": "S3", "kind": "support", "months": 4, "reviewWeeks": 8,
         "goals": [{"measure": "overjet", "comparator": "le", "target": 1}]},
       "/reviews/3/stageId": "%s"}""";

  private static BigDecimal goal(String stage, String day) {
    return goalOf(GOALS.formatted(stage), day);
  }

  private static BigDecimal goalOf(String changes, String day) {
    return OverjetGoal.of(SampleTreatments.changed(changes), LocalDate.parse(day))
        .orElseThrow()
        .target()
        .value();
  }

  private static OverjetCourse course(String changes, String day) {
    return OverjetCourse.of(SampleTreatments.changed(changes), LocalDate.parse(day))
        .result()
        .orElseThrow();
  }
}
