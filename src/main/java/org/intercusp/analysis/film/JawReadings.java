package org.intercusp.analysis.film;

import org.intercusp.measure.Length;

/**
 * Distances from the perpendicular to the occlusal line through sella, in millimetres, forward
 * positive: the two jaw bases (A, Pog) and one tooth of each (incisal edges, or molars).
 */
public record JawReadings(
    Length upperBase, Length lowerBase, Length upperTooth, Length lowerTooth) {

  /** Overjet of incisal edges; the molar relation of molars. */
  public Length relation() {
    return upperTooth.minus(lowerTooth);
  }
}
