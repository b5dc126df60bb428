package org.intercusp.analysis.block;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Length;

/**
 * The gap between the posterior teeth in a construction bite, predicted from hinge turn and
 * condylar slide, and with it the height of upper and lower block together. Sagittal plane, origin
 * at the hinge axis, x forward along a flat occlusal plane, z up, teeth in contact in habitual
 * occlusion. Lengths in millimetres, angles in degrees. The defaults of the jaw are common
 * practice, no source; the anchor (2 mm between the incisors goes with 5 to 6 mm between first
 * premolars) is published: J Orthod 2010;37:209-216. Registered clearances win over predicted ones.
 *
 * @param turn hinge turn, opening positive
 * @param slide along the condylar path, forward positive
 * @param gaps predicted with the jaw's own condylar path
 * @param flatter gaps with a condylar path 10 degrees flatter
 * @param steeper gaps with a condylar path 10 degrees steeper
 */
public record BlockGeometry(
    JawShape jaw, double turn, double slide, Gaps gaps, Gaps flatter, Gaps steeper) {

  /** How far the condylar path is varied for the spread: common practice, no source. */
  private static final double SPREAD = 10;

  /** Gaps between upper and lower teeth, rounded to a hundredth of a millimetre. */
  public record Gaps(Length incisors, Length firstPremolar, Length secondPremolar, Length molar) {}

  /**
   * Predicts from the bite.
   *
   * @param overjetHabitual forward positive
   * @param overjetInBite forward positive
   * @param overbite overlap positive
   * @param incisalClearance vertical, in the bite
   */
  public static Reckoned<BlockGeometry> predict(
      JawShape jaw,
      Length overjetHabitual,
      Length overjetInBite,
      Length overbite,
      Length incisalClearance) {
    Movement move = new Movement(overjetHabitual, overjetInBite, overbite, incisalClearance);
    return gaps(jaw, move)
        .flatMap(
            own ->
                gaps(jaw.withCondylarPath(jaw.condylarPath() - SPREAD), move)
                    .flatMap(
                        flatter ->
                            gaps(jaw.withCondylarPath(jaw.condylarPath() + SPREAD), move)
                                .map(
                                    steeper ->
                                        new BlockGeometry(
                                            jaw,
                                            Math.toDegrees(turn(jaw, move)),
                                            slide(jaw, move),
                                            own,
                                            flatter,
                                            steeper))));
  }

  private record Movement(double overjetInBite, double advance, double opening, double overbite) {

    Movement(Length habitual, Length inBite, Length overbite, Length clearance) {
      this(
          inBite.asDouble(),
          habitual.minus(inBite).asDouble(),
          overbite.plus(clearance).asDouble(),
          overbite.asDouble());
    }
  }

  private static double height(JawShape jaw) {
    return jaw.bonwillSide() * Math.sqrt(3) / 2;
  }

  private static double turn(JawShape jaw, Movement move) {
    double beta = Math.toRadians(jaw.balkwillAngle());
    double gamma = Math.toRadians(jaw.condylarPath());
    double carried =
        (move.opening() * Math.cos(gamma) - move.advance() * Math.sin(gamma)) / height(jaw);
    return gamma - beta + Math.asin(Math.sin(beta - gamma) + carried);
  }

  private static double slide(JawShape jaw, Movement move) {
    double beta = Math.toRadians(jaw.balkwillAngle());
    double gamma = Math.toRadians(jaw.condylarPath());
    double theta = turn(jaw, move);
    double m = height(jaw);
    return (move.advance()
            + m * Math.cos(beta) * (1 - Math.cos(theta))
            + m * Math.sin(beta) * Math.sin(theta))
        / Math.cos(gamma);
  }

  private static Reckoned<Gaps> gaps(JawShape jaw, Movement move) {
    double theta = turn(jaw, move);
    if (Double.isNaN(theta) || Math.abs(theta) >= Math.PI / 2) {
      return Reckoned.lacking("no turn of this jaw reaches the overjet and opening of the bite");
    }
    return Reckoned.known(
        new Gaps(
            rounded(move.opening() - move.overbite()),
            gap(move, theta, jaw.firstPremolar()),
            gap(move, theta, jaw.secondPremolar()),
            gap(move, theta, jaw.firstMolar())));
  }

  private static Length gap(Movement move, double theta, double behind) {
    return rounded(move.opening() - (behind - move.overjetInBite()) * Math.tan(theta));
  }

  private static Length rounded(double millimetres) {
    return new Length(BigDecimal.valueOf(millimetres).setScale(2, RoundingMode.HALF_UP));
  }
}
