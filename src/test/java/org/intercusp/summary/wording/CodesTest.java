package org.intercusp.summary.wording;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.treatment.Appliance;
import org.intercusp.treatment.ApplianceType;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.GrowthStage;
import org.junit.jupiter.api.Test;

class CodesTest {

  @Test
  void codesAreWrittenAsTheTradeWritesThem() {
    assertThat(Codes.words(ApplianceType.TWIN_BLOCK)).isEqualTo("twin block");
    assertThat(Codes.words(Appliance.Clasp.Kind.ADAMS)).isEqualTo("Adams");
    assertThat(Codes.words(Appliance.Clasp.Kind.BALL_ENDED)).isEqualTo("ball-ended");
    assertThat(Codes.words(Completion.Status.LOST_TO_FOLLOW_UP)).isEqualTo("lost to follow-up");
    assertThat(Codes.words(GrowthStage.CS3)).isEqualTo("CS3");
  }
}
