package org.intercusp.measure;

import java.math.BigDecimal;

/** An angle in degrees. */
public record Angle(Decimal number) implements Quantity, Comparable<Angle> {

  public static final Angle ZERO = new Angle(BigDecimal.ZERO);

  public Angle(BigDecimal value) {
    this(new Decimal(value));
  }

  /**
   * Reads a plain decimal such as {@code 9.5}; refuses anything else with NumberFormatException.
   */
  public static Angle of(String decimal) {
    return new Angle(new BigDecimal(decimal));
  }

  @Override
  public Unit unit() {
    return Unit.DEGREE;
  }

  public boolean isAbove(Angle limit) {
    return compareTo(limit) > 0;
  }

  public boolean isBelow(Angle limit) {
    return compareTo(limit) < 0;
  }

  @Override
  public int compareTo(Angle other) {
    return number.compareTo(other.number);
  }

  @Override
  public String toString() {
    return number + " " + unit().ucum();
  }
}
