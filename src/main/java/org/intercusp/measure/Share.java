package org.intercusp.measure;

import java.math.BigDecimal;

/** A share of a whole as a pure ratio; 0.7 means 70 %. */
public record Share(Decimal number) implements Quantity, Comparable<Share> {

  public static final Share ZERO = new Share(BigDecimal.ZERO);

  public Share(BigDecimal value) {
    this(new Decimal(value));
  }

  /**
   * Reads a plain decimal such as {@code 9.5}; refuses anything else with NumberFormatException.
   */
  public static Share of(String decimal) {
    return new Share(new BigDecimal(decimal));
  }

  @Override
  public Unit unit() {
    return Unit.SHARE;
  }

  public boolean isAbove(Share limit) {
    return compareTo(limit) > 0;
  }

  public boolean isBelow(Share limit) {
    return compareTo(limit) < 0;
  }

  @Override
  public int compareTo(Share other) {
    return number.compareTo(other.number);
  }

  @Override
  public String toString() {
    return number + " " + unit().ucum();
  }
}
