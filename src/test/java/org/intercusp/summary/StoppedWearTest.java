package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a family reads while harm waits for an answer, and once a treatment has ended. */
class StoppedWearTest {

  private static final String CALL = "Please call the clinic before you put the brace in again.";
  private static final String RETENTION =
      "\"/reviews/3/stageId\": \"S3\", \"/stages/2/wearHours\": 10";
  private static final String PLAN_OVER = "\"/stages/2/startsOn\": \"2025-10-01\"";

  @Test
  void unansweredHarmAsksToCallBeforeTheBraceIsWornAgain() throws Exception {
    Treatment harmed = HarmfulTreatments.of(HarmfulTreatments.JOINT);
    assertThat(family(harmed)).contains(CALL);
    saysNothingOfWear(family(harmed));
    assertThat(Written.text(Written.html(harmed, Audience.DENTIST)))
        .containsPattern("Wear asked for\\s+paused until the clinic has answered")
        .doesNotContain("22 h/day");
    assertThat(family(harmed))
        .contains("Ask the clinic", "call 112 now", "When to phone the clinic")
        .doesNotContain("locking")
        .doesNotContain("That is normal");
    assertThat(Written.text(Written.pdf(harmed, Audience.PATIENT)).replaceAll("\\s+", " "))
        .contains(CALL);
    assertThat(Written.text(Written.narrative(harmed, Audience.PATIENT))).contains(CALL);
    assertThat(Written.pages(Written.pdf(harmed, Audience.PATIENT))).isEqualTo(1);
  }

  @Test
  void harmThatAClinicianAnsweredLeavesTheHours() {
    Treatment answered =
        HarmfulTreatments.of(
            HarmfulTreatments.JOINT, HarmfulTreatments.answered("R4", "pain", "locking"));
    assertThat(family(answered)).contains("22 hours a day").doesNotContain(CALL);
    Treatment half =
        HarmfulTreatments.of(HarmfulTreatments.JOINT, HarmfulTreatments.answered("R4", "pain"));
    assertThat(family(half)).contains(CALL);
  }

  @Test
  void harmComesBeforeTheEnd() {
    for (String status : new String[] {"completed", "transferred", "discontinued-by-clinician"}) {
      assertThat(
              family(
                  HarmfulTreatments.of(
                      HarmfulTreatments.JOINT, RETENTION, HarmfulTreatments.ended(status))))
          .contains(CALL);
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"patient-stopped", "lost-to-follow-up", "discontinued-by-clinician"})
  void aTreatmentThatStoppedAsksForNoWear(String status) {
    String text = family(HarmfulTreatments.of(HarmfulTreatments.ended(status)));
    saysNothingOfWear(text);
    assertThat(text).contains("The time with this brace is over.", "Please call the clinic before");
  }

  @Test
  void aTreatmentThatMovedLeavesTheHoursToTheNewClinic() {
    String text = family(HarmfulTreatments.of(HarmfulTreatments.ended("transferred")));
    assertThat(text)
        .contains("Ask them how long to wear your brace each day", "Putting it in")
        .doesNotContain("22 hours");
  }

  @Test
  void aCompletedTreatmentKeepsTheNightsOfRetentionWhileItsTimeRuns() {
    String ended = HarmfulTreatments.ended("completed");
    assertThat(family(HarmfulTreatments.of(RETENTION, ended))).contains("10 hours each day");
    String over = family(HarmfulTreatments.of(RETENTION, PLAN_OVER, ended));
    saysNothingOfWear(over);
    assertThat(over).contains("Ask the clinic if you should still wear a brace at night.");
    assertThat(family(HarmfulTreatments.of(RETENTION, PLAN_OVER))).contains("10 hours each day");
  }

  @Test
  void theTimeOfRetentionRunsFromTheFittingOfTheRetainer() {
    String retainer =
        "\"/stages/2/applianceId\": \"A2\", \"/appliances/-\": {\"id\": \"A2\","
            + " \"type\": \"retainer\", \"orderedOn\": \"2026-06-01\", \"fittedOn\": \"2026-07-13\","
            + " \"clasps\": [], \"incisalCapping\": false, \"material\": \"acrylic\"}";
    assertThat(
            family(
                HarmfulTreatments.of(
                    "\"/stages/2/wearHours\": 10",
                    PLAN_OVER,
                    retainer,
                    HarmfulTreatments.ended("completed"))))
        .contains("10 hours each day", "keeps your teeth in place");
  }

  @Test
  void aTreatmentCompletedWithoutRetentionIsOver() {
    String text = family(HarmfulTreatments.of(HarmfulTreatments.ended("completed")));
    saysNothingOfWear(text);
    assertThat(text).contains("The time with your brace is over.");
  }

  @Test
  void theFamilyIsAskedToCallInItsOwnLanguage() {
    byte[] html =
        Written.bytes(
            HarmfulTreatments.of(HarmfulTreatments.JOINT),
            Audience.PATIENT,
            Form.HTML,
            Locale.GERMAN);
    assertThat(new String(html, StandardCharsets.UTF_8))
        .contains("Bitte ruf in der Praxis an, bevor du die Spange wieder einsetzt.")
        .doesNotContain("Tag und Nacht");
  }

  private static void saysNothingOfWear(String text) {
    assertThat(text)
        .doesNotContain("hours")
        .doesNotContain("all day")
        .doesNotContain("Wear it for a day")
        .doesNotContain("with your brace in")
        .doesNotContain("Then put it back in");
  }

  private static String family(Treatment treatment) {
    return Written.text(Written.html(treatment, Audience.PATIENT));
  }
}
