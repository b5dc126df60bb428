package org.intercusp.summary.drawing;

import org.intercusp.measure.Share;
import org.intercusp.treatment.Bite;
import org.jspecify.annotations.Nullable;

/**
 * What the drawing of a bite needs: the registered bite and the gap behind, registered or
 * predicted.
 *
 * @param premolarGap vertical gap between the first premolars in the bite, in mm
 * @param predicted whether that gap was computed from hinge and path rather than measured
 * @param most the share of the path that the clinic uses at most
 */
public record BiteView(Bite bite, @Nullable Double premolarGap, boolean predicted, Share most) {

  /** Distance of the first premolar behind the upper incisal edge, in mm: common practice. */
  private static final double FIRST_PREMOLAR = 14;

  double overjet() {
    return bite.overjetHabitual().asDouble();
  }

  double overjetInBite() {
    return bite.overjetInBite().asDouble();
  }

  double overbite() {
    return bite.overbiteHabitual().asDouble();
  }

  double clearance() {
    return bite.incisalClearance().asDouble();
  }

  /** How far the lower incisal edge is lowered by the bite, in mm. */
  double opening() {
    return overbite() + clearance();
  }

  /**
   * The turn of the lower jaw that leaves the premolar gap; none is drawn where no gap is known.
   */
  double turn() {
    if (premolarGap == null) {
      return 0;
    }
    double behind = FIRST_PREMOLAR - overjetInBite();
    return Math.atan2(opening() - premolarGap, behind);
  }
}
