package org.intercusp.measure;

/**
 * The reading error of an instrument: readings are taken to lie evenly within {@code halfWidth} of
 * the true value, so the standard uncertainty is {@code halfWidth / sqrt(3)} (rectangular
 * distribution, JCGM 100:2008, 4.3.7).
 *
 * @param halfWidth in millimetres, not negative
 */
public record ReadingError(double halfWidth) {

  /** Sliding scale or ruler read to half a millimetre: common practice, no source. */
  public static final ReadingError RULER = new ReadingError(0.5);

  /**
   * A landmark found on a film, each coordinate alike and as drawn: common practice, no source. How
   * far landmarks differ among each other and by direction is not modelled.
   */
  public static final ReadingError LANDMARK = new ReadingError(0.5);

  public ReadingError {
    if (!(halfWidth >= 0) || Double.isInfinite(halfWidth)) {
      throw new IllegalArgumentException("a reading error is a finite length, not negative");
    }
  }

  /** Standard uncertainty u of one reading, in millimetres. */
  public double standardUncertainty() {
    return halfWidth / Math.sqrt(3);
  }
}
