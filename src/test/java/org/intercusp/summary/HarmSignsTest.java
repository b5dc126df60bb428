package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/** Which signs of harm the dentist reads first where there are more than the page has room for. */
class HarmSignsTest {

  @Test
  void theUnansweredComeFirstAndTheNewestOfThemBeforeTheRest() {
    String text =
        dentist(
            HarmfulTreatments.of(
                "\"/reviews/0/jointSigns\": [\"pain\", \"locking\", \"limited-opening\"]",
                "\"/reviews/1/jointSigns\": [\"locking\"]",
                "\"/reviews/3/jointSigns\": [\"pain\"]",
                HarmfulTreatments.answered("R1", "pain", "locking", "limited-opening")));
    assertThat(text)
        .containsSubsequence(
            "pain, seen on 2026-07-13",
            "locking, seen on 2026-04-20",
            "seen on 2026-03-09",
            "and 2 more");
    assertThat(text.split("seen on", -1)).hasSize(4);
  }

  @Test
  void anAnsweredSignNeverHidesAnOlderUnansweredOne() {
    assertThat(
            dentist(
                HarmfulTreatments.of(
                    "\"/reviews/0/jointSigns\": [\"locking\"]",
                    "\"/reviews/3/jointSigns\": [\"pain\", \"locking\", \"limited-opening\"]",
                    HarmfulTreatments.answered("R4", "pain", "locking", "limited-opening"))))
        .containsSubsequence("locking, seen on 2026-03-09", "pain, seen on 2026-07-13")
        .contains("and 1 more");
  }

  @Test
  void nothingIsCountedWhereAllAreShown() {
    assertThat(dentist(HarmfulTreatments.of(HarmfulTreatments.JOINT)))
        .contains("pain, seen on", "locking, seen on")
        .doesNotContain(" more");
  }

  @Test
  void signsStandInWords() {
    assertThat(
            dentist(
                HarmfulTreatments.of(
                    "\"/reviews/3/jointSigns\": [\"limited-opening\"]",
                    "\"/reviews/3/adverseEvents\": [{\"code\": \"fragment-inhaled\", \"severity\":"
                        + " \"mild\", \"serious\": false, \"suspectedAppliance\": true,"
                        + " \"onsetOn\": \"2026-07-12\"}]")))
        .contains("limited opening, seen on", "fragment inhaled, mild")
        .doesNotContain("limited-opening")
        .doesNotContain("fragment-inhaled");
  }

  private static String dentist(Treatment treatment) {
    String html = Written.html(treatment, Audience.DENTIST);
    int start = html.indexOf("Sign of harm");
    return Written.text(html.substring(start, html.indexOf("</section>", start)));
  }
}
