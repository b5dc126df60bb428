package org.intercusp.fhir;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.scenario.TreatmentGenerator;
import org.junit.jupiter.api.Test;

/** A thousand invented treatments go out and come back. */
class GeneratedRoundTripTest {

  @Test
  void aThousandTreatmentsComeBackAsTheyWereWritten() {
    int[] read = {0};
    new TreatmentGenerator()
        .treatments(1000, 20261101L)
        .forEach(
            treatment -> {
              ReadBack back = Samples.journey(treatment);
              assertThat(back.faults()).as(treatment.id()).isEmpty();
              assertThat(back.unplaced()).as(treatment.id()).isEmpty();
              assertThat(Samples.file(back.treatment())).isEqualTo(Samples.file(treatment));
              read[0]++;
            });
    assertThat(read[0]).isEqualTo(1000);
  }
}
