package org.intercusp.web.pages;

import org.intercusp.measure.Length;
import org.intercusp.measure.Share;
import org.intercusp.rules.Examination;
import org.intercusp.rules.rule.Limit;
import org.intercusp.summary.drawing.BiteDrawing;
import org.intercusp.summary.drawing.BiteView;
import org.intercusp.summary.drawing.PredictedGap;
import org.intercusp.treatment.Bite;
import org.jspecify.annotations.Nullable;

/** The drawing of a bite, with the registered premolar gap or, without one, the predicted gap. */
public final class BitePicture {

  private BitePicture() {}

  /** The drawing as an SVG element, by the figures of the treatment and the clinic's limit. */
  public static String of(Bite bite, Examination examination) {
    Share most = examination.limits().share(Limit.SHARE_OF_PATH);
    Length registered = bite.premolarClearance();
    if (registered != null) {
      return BiteDrawing.svg(new BiteView(bite, registered.asDouble(), false, most));
    }
    @Nullable Double predicted =
        PredictedGap.firstPremolar(bite, examination.figures()).orElse(null);
    return BiteDrawing.svg(new BiteView(bite, predicted, true, most));
  }
}
