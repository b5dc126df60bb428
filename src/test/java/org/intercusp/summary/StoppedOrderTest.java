package org.intercusp.summary;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.rules.SampleTreatments;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/** What a laboratory reads while no appliance may be ordered. */
class StoppedOrderTest {

  private static final String STOPPED = "Order stopped:";

  @Test
  void harmStopsTheOrderOnEveryFormOfTheSheet() throws Exception {
    Treatment harmed = HarmfulTreatments.of(HarmfulTreatments.JOINT);
    String html = Written.html(harmed, Audience.LABORATORY);
    assertThat(html.indexOf(STOPPED)).isBetween(0, html.indexOf(">Prescription<"));
    byte[] pdf = Written.pdf(harmed, Audience.LABORATORY);
    String paper = Written.text(pdf).replaceAll("\\s+", " ");
    assertThat(Written.pages(pdf)).isEqualTo(1);
    for (String each :
        new String[] {
          Written.text(html), paper, Written.text(Written.narrative(harmed, Audience.LABORATORY))
        }) {
      assertThat(each)
          .contains(STOPPED, "Please ask Harbour Lane Orthodontic Clinic.")
          .doesNotContain("pain")
          .doesNotContain("locking")
          .doesNotContain("joint")
          .doesNotContain("harm");
    }
  }

  @Test
  void anErrorStopsTheOrderAsItStopsADelivery() {
    assertThat(sheet(HarmfulTreatments.of("\"/diagnosis/activeCaries\": true"))).contains(STOPPED);
  }

  @Test
  void anAnswerLetsTheOrderGo() {
    assertThat(
            sheet(
                HarmfulTreatments.of(
                    HarmfulTreatments.JOINT, HarmfulTreatments.answered("R4", "pain", "locking"))))
        .doesNotContain(STOPPED);
    assertThat(sheet(SampleTreatments.base())).doesNotContain(STOPPED);
  }

  @Test
  void nothingOrderedIsNotStopped() {
    assertThat(
            sheet(
                SampleTreatments.changed(
                    OddTreatments.BARE.replace("activeCaries\": null", "activeCaries\": true"))))
        .contains("No appliance is ordered.")
        .doesNotContain(STOPPED);
  }

  private static String sheet(Treatment treatment) {
    return Written.html(treatment, Audience.LABORATORY);
  }
}
