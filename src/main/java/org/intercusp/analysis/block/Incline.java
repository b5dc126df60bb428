package org.intercusp.analysis.block;

import java.math.BigDecimal;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Angle;

/**
 * An inclined plane at an angle to the occlusal plane, 0 to 90 degrees: what a contact force of one
 * normal to it does forward and vertically. Plain geometry; that 70 degrees is usual, 45 degrees
 * for a patient who can't hold the forward posture, and that 90 degrees lets the jaw fall back, is
 * common practice, no source.
 */
public record Incline(Angle angle) {

  private static final BigDecimal UPRIGHT = BigDecimal.valueOf(90);

  /** Share of the contact force that acts forward: the sine. */
  public double forward() {
    return Math.sin(Math.toRadians(angle.asDouble()));
  }

  /** Share of the contact force that acts vertically: the cosine. */
  public double vertical() {
    return isUpright() ? 0 : Math.cos(Math.toRadians(angle.asDouble()));
  }

  /** Forward to vertical force; lacking for an upright plane, which has no vertical force. */
  public Reckoned<Double> ratio() {
    return isUpright()
        ? Reckoned.lacking("an upright plane has no vertical force")
        : Reckoned.known(Math.tan(Math.toRadians(angle.asDouble())));
  }

  private boolean isUpright() {
    return angle.value().compareTo(UPRIGHT) == 0;
  }
}
