package org.intercusp.published;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Map;
import org.intercusp.analysis.film.Face;
import org.intercusp.analysis.growth.GrowthEffect;
import org.intercusp.analysis.growth.VertebralStage;
import org.intercusp.measure.Length;
import org.intercusp.treatment.BodyShape;
import org.intercusp.treatment.GrowthStage;
import org.intercusp.treatment.Vertebrae;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Stages of the cervical vertebrae, Semin Orthod 2005;11:119-129, and the effect of treatment at
 * each, PLoS One 2015 (meta-analysis of removable functional appliances). Exact: a table of words.
 */
class SeminOrthod2005VertebraeTest {

  @ParameterizedTest
  @CsvSource({
    "false, false, false, TRAPEZOID, TRAPEZOID, CS1",
    "true, false, false, TRAPEZOID, TRAPEZOID, CS2",
    "true, true, false, TRAPEZOID, HORIZONTAL, CS3",
    "true, true, true, HORIZONTAL, HORIZONTAL, CS4",
    "true, true, true, SQUARE, HORIZONTAL, CS5",
    "true, true, true, HORIZONTAL, SQUARE, CS5",
    "true, true, true, SQUARE, VERTICAL, CS6",
    "true, true, true, VERTICAL, HORIZONTAL, CS6"
  })
  void theTable(
      boolean c2, boolean c3, boolean c4, BodyShape third, BodyShape fourth, GrowthStage stage) {
    assertThat(VertebralStage.of(new Vertebrae(c2, c3, c4, third, fourth)).result())
        .contains(stage);
  }

  @ParameterizedTest
  @CsvSource({
    "false, true, false, HORIZONTAL, HORIZONTAL",
    "false, false, true, HORIZONTAL, HORIZONTAL",
    "false, true, true, HORIZONTAL, HORIZONTAL",
    "true, false, true, SQUARE, SQUARE",
    "false, false, false, SQUARE, TRAPEZOID",
    "true, true, false, HORIZONTAL, VERTICAL"
  })
  void anotherPatternContradictsItself(
      boolean c2, boolean c3, boolean c4, BodyShape third, BodyShape fourth) {
    Vertebrae seen = new Vertebrae(c2, c3, c4, third, fourth);
    assertThat(VertebralStage.of(seen).result()).isEmpty();
    assertThat(VertebralStage.of(seen).reason()).contains("contradict");
  }

  @Test
  void theEffectBeforeAroundAndAfterThePeak() {
    GrowthEffect before = new GrowthEffect(Length.of("0.95"), Length.of("0.38"), Length.of("1.51"));
    GrowthEffect peak = new GrowthEffect(Length.of("2.91"), Length.of("2.04"), Length.of("3.79"));
    Map<GrowthStage, GrowthEffect> published =
        Map.of(
            GrowthStage.CS1, before,
            GrowthStage.CS2, before,
            GrowthStage.CS3, peak,
            GrowthStage.CS4, peak);
    for (GrowthStage stage : GrowthStage.values()) {
      assertThat(GrowthEffect.at(stage).result().orElse(null)).isEqualTo(published.get(stage));
    }
  }

  @Test
  void aFilmWithoutVertebraeSaysSo() {
    assertThat(VertebralStage.figures(Face.film("f", Face.classTwo(), null)))
        .hasSize(2)
        .allMatch(figure -> figure.value() == null && figure.note().contains("not recorded"));
  }
}
