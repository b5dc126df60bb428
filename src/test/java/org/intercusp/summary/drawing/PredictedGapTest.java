package org.intercusp.summary.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.SampleTreatments;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Limits;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.api.Test;

/** A drawing shows the gaps that stand beside it among the figures. */
class PredictedGapTest {

  private static final LocalDate ON = LocalDate.parse("2026-07-20");

  /** An adult by the clinic's own age, a child when the bite was taken: one jaw for both. */
  @Test
  void predictedHeightsAreThoseOfTheFigures() {
    Treatment grown =
        SampleTreatments.changed(
            """
            {"/appliances/0/blockHeights": null, "/bites/0/molarClearance": null,
             "/patient/birthDate": "2010-05-10"}
            """);
    Limits own = new Limits(Map.of(Limit.ADULT_FROM, BigDecimal.valueOf(16)));
    for (Limits limits : List.of(Limits.USUAL, own)) {
      List<Figure> figures = new Examiner(limits).examine(grown, ON).figures();
      BlockView view = BlockView.of(grown, grown.appliances().get(0), figures).orElseThrow();
      assertThat(BigDecimal.valueOf(view.molar()).setScale(2, RoundingMode.HALF_UP))
          .isEqualTo(number(figures, "gap-first-molar"));
      assertThat(BigDecimal.valueOf(view.premolar()).setScale(2, RoundingMode.HALF_UP))
          .isEqualTo(number(figures, "gap-first-premolar"));
    }
    assertThat(number(new Examiner(own).examine(grown, ON).figures(), "gap-first-molar"))
        .isNotEqualTo(number(new Examiner().examine(grown, ON).figures(), "gap-first-molar"));
  }

  private static BigDecimal number(List<Figure> figures, String name) {
    return figures.stream()
        .filter(figure -> figure.name().equals(name))
        .map(figure -> ((Value.Numeric) figure.value()).number())
        .findFirst()
        .orElseThrow();
  }
}
