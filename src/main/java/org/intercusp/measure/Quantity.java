package org.intercusp.measure;

import java.math.BigDecimal;

/**
 * A decimal value with a unit. Two quantities are equal when type and number are equal, however the
 * number was written (9 and 9.0 are the same overjet); the digits as written are kept for the way
 * out.
 */
public sealed interface Quantity permits Length, Angle, Share, HoursPerDay {

  /** The number, which knows when two of them are equal. */
  Decimal number();

  default BigDecimal value() {
    return number().value();
  }

  Unit unit();

  /** The value as a binary number, for geometry; comparisons with limits use {@link #value()}. */
  default double asDouble() {
    return value().doubleValue();
  }
}
