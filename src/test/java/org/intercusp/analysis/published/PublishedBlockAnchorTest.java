package org.intercusp.analysis.published;

import static org.assertj.core.api.Assertions.assertThat;

import org.intercusp.analysis.block.BlockGeometry;
import org.intercusp.analysis.block.JawShape;
import org.intercusp.measure.Length;
import org.junit.jupiter.api.Test;

/**
 * J Orthod 2010;37:209-216: a bite with 2 mm between the incisors has 5 to 6 mm between the first
 * premolars. Reproduced for an overbite of 4 mm, for the jaws assumed of child and adult; the
 * tolerance is the published range itself.
 */
class PublishedBlockAnchorTest {

  /** Common practice, no source. */
  private static final JawShape CHILD = new JawShape(88, 26, 20, 14, 22, 31);

  private static final JawShape ADULT = new JawShape(100, 26, 25, 14, 21, 30);

  @Test
  void twoMillimetresBetweenIncisorsGoWithFiveToSixBetweenFirstPremolars() {
    for (JawShape jaw : new JawShape[] {CHILD, ADULT}) {
      BlockGeometry block =
          BlockGeometry.predict(jaw, Length.of("9"), Length.ZERO, Length.of("4"), Length.of("2"))
              .result()
              .orElseThrow();
      assertThat(block.gaps().incisors()).isEqualTo(Length.of("2"));
      assertThat(block.gaps().firstPremolar()).isBetween(Length.of("5"), Length.of("6"));
    }
  }
}
