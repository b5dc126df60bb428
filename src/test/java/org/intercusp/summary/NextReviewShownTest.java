package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.summary.drawing.StageLine;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/** What readers are told of the next review: a day that is past is never promised. */
class NextReviewShownTest {

  private static final Treatment PAST =
      SampleTreatments.changed("{\"/reviews/3/nextReviewOn\": \"2026-07-19\"}");
  private static final Treatment TODAY =
      SampleTreatments.changed("{\"/reviews/3/nextReviewOn\": \"2026-07-20\"}");

  @Test
  void aDayThatIsPastWasDue() {
    assertThat(dentist(PAST)).containsPattern("Next review\\s+was due 2026-07-19");
    assertThat(dentist(TODAY)).containsPattern("Next review\\s+2026-07-20");
    assertThat(StageLine.svg(PAST, Written.ON).orElseThrow())
        .contains(">Review was due 2026-07-19<")
        .doesNotContain("Next review 2026-07-19");
    assertThat(StageLine.svg(TODAY, Written.ON).orElseThrow()).contains(">Next review 2026-07-20<");
  }

  @Test
  void aFamilyWhoseVisitIsOverdueIsAskedToPhone() {
    assertThat(family(PAST, Locale.ENGLISH))
        .contains("It was due on 19 July 2026. Please phone the clinic.");
    assertThat(family(PAST, Locale.GERMAN))
        .contains("Er war am 19. Juli 2026. Bitte ruf in der Praxis an.");
    assertThat(family(TODAY, Locale.ENGLISH)).contains("20 July 2026").doesNotContain("was due");
  }

  /** Hours and visits change; a sheet that lies at home tells how old it is. */
  @Test
  void theFamilysSheetTellsItsDay() {
    assertThat(family(TODAY, Locale.ENGLISH)).containsPattern("This sheet is from\\s+20 July 2026");
    assertThat(family(TODAY, Locale.GERMAN)).containsPattern("Blatt vom\\s+20. Juli 2026");
  }

  @Test
  void whyThereIsNoneIsSaidInWords() {
    assertThat(dentist(HarmfulTreatments.of(HarmfulTreatments.ended("patient-stopped"))))
        .containsPattern("Next review\\s+none: treatment has ended")
        .doesNotContain("patient-stopped");
  }

  @Test
  void beforeAFittingNoStageHasBegun() {
    Treatment ordered =
        SampleTreatments.changed(
            "{\"/reviews\": [], \"/appliances/0/fittedOn\": null, \"/stages/0/startsOn\": null}");
    assertThat(dentist(ordered))
        .containsPattern("Stage\\s+not begun: no appliance is fitted")
        .containsPattern("Next review\\s+none: no review and no date")
        .doesNotContain("Wear asked for");
  }

  private static String dentist(Treatment treatment) {
    return Written.text(Written.html(treatment, Audience.DENTIST));
  }

  private static String family(Treatment treatment, Locale language) {
    byte[] html = Written.bytes(treatment, Audience.PATIENT, Form.HTML, language);
    return Written.text(new String(html, java.nio.charset.StandardCharsets.UTF_8));
  }
}
