package org.intercusp.web.pages;

import java.time.Period;
import java.util.Optional;
import org.intercusp.analysis.block.BlockGeometry;
import org.intercusp.analysis.block.JawShape;
import org.intercusp.measure.Length;
import org.intercusp.summary.drawing.BiteDrawing;
import org.intercusp.summary.drawing.BiteView;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Treatment;

/** The drawing of a bite, with the registered premolar gap or, without one, the predicted gap. */
public final class BitePicture {

  /** From 18 years a jaw is drawn as an adult's: common practice, no source. */
  private static final int ADULT_FROM = 18;

  private BitePicture() {}

  /** The drawing as an SVG element. */
  public static String of(Treatment treatment, Bite bite) {
    Length registered = bite.premolarClearance();
    if (registered != null) {
      return BiteDrawing.svg(new BiteView(bite, registered.asDouble(), false));
    }
    int age = Period.between(treatment.patient().birthDate(), bite.recordedOn()).getYears();
    Optional<Double> predicted =
        BlockGeometry.predict(
                JawShape.of(age >= ADULT_FROM),
                bite.overjetHabitual(),
                bite.overjetInBite(),
                bite.overbiteHabitual(),
                bite.incisalClearance())
            .result()
            .map(geometry -> geometry.gaps().firstPremolar().asDouble());
    return BiteDrawing.svg(new BiteView(bite, predicted.orElse(null), true));
  }
}
