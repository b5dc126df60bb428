package org.intercusp.treatment;

import org.intercusp.dentition.Side;
import org.intercusp.measure.Length;

/** A length on each side of the mouth, the patient's own right and left. */
public record BothSides(Length right, Length left) {

  /** The reading of one side. */
  public Length on(Side side) {
    return side == Side.RIGHT ? right : left;
  }

  /** The same mouth seen in a mirror. */
  public BothSides mirrored() {
    return new BothSides(/* right= */ left, /* left= */ right);
  }
}
