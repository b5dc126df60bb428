package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.analysis.index.TreatmentNeed;
import org.intercusp.finding.SourceClass;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Need for treatment as used in England: common practice, no source. Exact. */
class CommonPracticeNeedTest {

  @ParameterizedTest
  @CsvSource({
    "5, 1, true",
    "4, 1, true",
    "3, 6, true",
    "3, 5, false",
    "3, 10, true",
    "2, 10, false",
    "1, 10, false"
  })
  void theRule(int grade, int aesthetic, boolean needed) {
    assertThat(TreatmentNeed.needed(grade, aesthetic)).isEqualTo(needed);
    assertThat(TreatmentNeed.SOURCE.kind()).isEqualTo(SourceClass.COMMON_PRACTICE);
  }
}
