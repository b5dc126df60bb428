package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.scenario.TreatmentGenerator;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** Invented treatments go out and come back, and what came back goes out the same. */
@Tag("steady")
class GeneratedRoundTripTest {

  @Test
  void twoHundredTreatmentsComeBackAsTheyWereWritten() {
    assertThat(comeBack(200)).isEqualTo(200);
  }

  @Test
  @Tag("long")
  void tenThousandTreatmentsComeBackAsTheyWereWritten() {
    assertThat(comeBack(10_000)).isEqualTo(10_000);
  }

  private static int comeBack(int count) {
    int[] read = {0};
    new TreatmentGenerator()
        .treatments(count, 20261101L)
        .forEach(
            treatment -> {
              comesBack(treatment);
              read[0]++;
            });
    return read[0];
  }

  private static void comesBack(Treatment treatment) {
    Bundle written = Samples.bundle(treatment, BundleForm.TRANSACTION);
    String text = Samples.json(written);
    ReadBack back = Samples.MAPPER.fromBundle(Samples.parse(text));
    assertThat(back.faults()).as(treatment.id()).isEmpty();
    assertThat(back.unplaced()).as(treatment.id()).isEmpty();
    assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(treatment));
    assertThat(Samples.json(Samples.bundle(back.treatment(), BundleForm.TRANSACTION)))
        .as(treatment.id())
        .isEqualTo(text);
  }
}
