package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.math.BigDecimal;
import org.intercusp.analysis.index.ParChange;
import org.intercusp.analysis.index.ParWeighting;
import org.intercusp.finding.SourceClass;
import org.intercusp.treatment.OutcomeScores;
import org.junit.jupiter.api.Test;

/**
 * United States weights of the peer assessment rating, from memory of Am J Orthod Dentofacial
 * Orthop 1995;107:172-176. Whole numbers, exact; the percentage to its printed thousandth.
 */
class AmJOrthod1995UsWeightsFromMemoryTest {

  @Test
  void workedExample() {
    int before = ParWeighting.US.score(new OutcomeScores.Par(6, 4, 2, 2, 4, 2, 1));
    int after = ParWeighting.US.score(new OutcomeScores.Par(1, 1, 1, 0, 0, 0, 0));
    assertThat(before).isEqualTo(43);
    assertThat(after).isEqualTo(3);
    assertThat(new ParChange(before, after).percent().result().get())
        .isCloseTo(new BigDecimal("93.023"), within(new BigDecimal("0.0005")));
  }

  @Test
  void eachComponentAlone() {
    assertThat(ParWeighting.US.score(new OutcomeScores.Par(1, 0, 0, 0, 0, 0, 0))).isEqualTo(1);
    assertThat(ParWeighting.US.score(new OutcomeScores.Par(0, 1, 0, 0, 0, 0, 0))).isZero();
    assertThat(ParWeighting.US.score(new OutcomeScores.Par(0, 0, 1, 0, 0, 0, 0))).isEqualTo(2);
    assertThat(ParWeighting.US.score(new OutcomeScores.Par(0, 0, 0, 1, 0, 0, 0))).isEqualTo(2);
    assertThat(ParWeighting.US.score(new OutcomeScores.Par(0, 0, 0, 0, 1, 0, 0))).isEqualTo(5);
    assertThat(ParWeighting.US.score(new OutcomeScores.Par(0, 0, 0, 0, 0, 1, 0))).isEqualTo(3);
    assertThat(ParWeighting.US.score(new OutcomeScores.Par(0, 0, 0, 0, 0, 0, 1))).isEqualTo(3);
    assertThat(ParWeighting.US.source().kind()).isEqualTo(SourceClass.MEMORY);
  }
}
