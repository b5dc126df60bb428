package org.intercusp.analysis.film;

import org.hipparchus.analysis.differentiation.Gradient;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.Length;

/**
 * The distances of {@link JawReadings} as they come from landmarks, with their partial derivatives
 * by the coordinates of both films.
 */
record JawDistances(
    Gradient upperBase, Gradient lowerBase, Gradient upperTooth, Gradient lowerTooth) {

  /** To a millionth of a millimetre. */
  Reckoned<JawReadings> rounded() {
    return length(upperBase)
        .flatMap(
            a ->
                length(lowerBase)
                    .flatMap(
                        pog ->
                            length(upperTooth)
                                .flatMap(
                                    upper ->
                                        length(lowerTooth)
                                            .map(lower -> new JawReadings(a, pog, upper, lower)))));
  }

  private static Reckoned<Length> length(Gradient distance) {
    return Estimate.of(distance).map(known -> new Length(known.value()));
  }
}
