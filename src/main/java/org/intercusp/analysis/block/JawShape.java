package org.intercusp.analysis.block;

/**
 * What is assumed of a jaw where nothing was measured: lengths in millimetres, angles in degrees to
 * the occlusal plane. Refused are a side that is not positive and angles outside -60 to 60 degrees.
 *
 * @param bonwillSide side of the triangle between the condyles and the lower incisors
 * @param balkwillAngle between that triangle and the occlusal plane
 * @param condylarPath of the condyles forward and down
 * @param firstPremolar distance behind the upper incisal edge
 * @param secondPremolar distance behind the upper incisal edge
 * @param firstMolar distance behind the upper incisal edge
 */
public record JawShape(
    double bonwillSide,
    double balkwillAngle,
    double condylarPath,
    double firstPremolar,
    double secondPremolar,
    double firstMolar) {

  public JawShape {
    if (!(bonwillSide > 0) || !isUsable(balkwillAngle) || !isUsable(condylarPath)) {
      throw new IllegalArgumentException("a jaw with a positive side and angles of -60 to 60 deg");
    }
  }

  private static boolean isUsable(double angle) {
    return Math.abs(angle) <= 60;
  }

  /** The same jaw with another condylar path. */
  public JawShape withCondylarPath(double degrees) {
    return new JawShape(
        bonwillSide, balkwillAngle, degrees, firstPremolar, secondPremolar, firstMolar);
  }
}
