package org.intercusp.analysis.film;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.Arrays;
import org.hipparchus.analysis.differentiation.Gradient;
import org.intercusp.analysis.Reckoned;
import org.intercusp.measure.ReadingError;

/**
 * An angle, length or ratio with its partial derivatives by the coordinates of the landmarks it was
 * taken from, so that what their error makes of it is known (law of propagation, JCGM 100:2008,
 * 5.1.2, coordinates independent).
 */
record Estimate(Gradient computed) {

  private static final int PLACES = 6;

  /** Lacking where the numbers left the range that can be computed with. */
  static Reckoned<Estimate> of(Gradient computed) {
    return Double.isFinite(computed.getValue())
            && Arrays.stream(computed.getGradient()).allMatch(Double::isFinite)
        ? Reckoned.known(new Estimate(computed))
        : Reckoned.lacking("landmarks lie too far apart to be computed with");
  }

  /** Rounded to a millionth, so that noise of the binary arithmetic never decides a comparison. */
  BigDecimal value() {
    return BigDecimal.valueOf(computed.getValue()).setScale(PLACES, RoundingMode.HALF_EVEN);
  }

  /** Standard uncertainty in the unit of the value, when each coordinate has such an error. */
  double uncertainty(ReadingError error) {
    double squares = 0;
    for (double slope : computed.getGradient()) {
      squares += slope * slope;
    }
    return error.standardUncertainty() * Math.sqrt(squares);
  }
}
