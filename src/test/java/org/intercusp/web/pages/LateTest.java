package org.intercusp.web.pages;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/**
 * The list of treatments calls a review overdue by today's date; the page of the treatment, which
 * is judged at the day the record speaks of, says the same.
 */
class LateTest {

  private static final Treatment DATED =
      SampleTreatments.changed(
          "{\"/asOf\": \"2026-07-20\", \"/reviews/3/nextReviewOn\": \"2026-08-24\"}");

  @Test
  void aReviewThatIsPastTodayIsSaidToHaveBeenDue() {
    assertThat(Late.said(DATED, LocalDate.parse("2026-08-25")))
        .isEqualTo("By today, 2026-08-25, a review was due on 2026-08-24, 1 day ago.");
    assertThat(Late.said(DATED, LocalDate.parse("2026-11-28"))).endsWith("96 days ago.");
  }

  @Test
  void nothingIsSaidWhereNothingIsLateOrTheFindingsSayIt() {
    assertThat(Late.said(DATED, LocalDate.parse("2026-08-24"))).isEmpty();
    Treatment today = SampleTreatments.changed("{\"/asOf\": null}");
    assertThat(Late.said(today, LocalDate.parse("2027-08-24"))).isEmpty();
    Treatment ended =
        SampleTreatments.changed(
            """
            {"/asOf": "2026-07-20", "/completion": {"status": "patient-stopped",
             "decidedOn": "2026-07-19", "lastAttendedOn": "2026-07-13"}}""");
    assertThat(Late.said(ended, LocalDate.parse("2027-08-24"))).isEmpty();
  }
}
