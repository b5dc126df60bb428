package org.intercusp.web.pages;

import java.util.List;
import org.intercusp.finding.Figure;
import org.intercusp.measure.Length;
import org.intercusp.summary.drawing.BiteDrawing;
import org.intercusp.summary.drawing.BiteView;
import org.intercusp.summary.drawing.PredictedGap;
import org.intercusp.treatment.Bite;
import org.jspecify.annotations.Nullable;

/** The drawing of a bite, with the registered premolar gap or, without one, the predicted gap. */
public final class BitePicture {

  private BitePicture() {}

  /** The drawing as an SVG element, by the figures of the treatment. */
  public static String of(Bite bite, List<Figure> figures) {
    Length registered = bite.premolarClearance();
    if (registered != null) {
      return BiteDrawing.svg(new BiteView(bite, registered.asDouble(), false));
    }
    @Nullable Double predicted = PredictedGap.firstPremolar(bite, figures).orElse(null);
    return BiteDrawing.svg(new BiteView(bite, predicted, true));
  }
}
