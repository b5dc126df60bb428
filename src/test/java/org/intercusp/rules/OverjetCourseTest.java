package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.intercusp.analysis.progress.OverjetCourse;
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

  private static OverjetCourse course(String changes, String day) {
    return OverjetCourse.of(SampleTreatments.changed(changes), LocalDate.parse(day))
        .result()
        .orElseThrow();
  }
}
