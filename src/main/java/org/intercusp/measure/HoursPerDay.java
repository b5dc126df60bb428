package org.intercusp.measure;

import java.math.BigDecimal;

/** Hours a day an appliance is worn. */
public record HoursPerDay(Decimal number) implements Quantity, Comparable<HoursPerDay> {

  public static final HoursPerDay ZERO = new HoursPerDay(BigDecimal.ZERO);

  public HoursPerDay(BigDecimal value) {
    this(new Decimal(value));
  }

  /**
   * Reads a plain decimal such as {@code 9.5}; refuses anything else with NumberFormatException.
   */
  public static HoursPerDay of(String decimal) {
    return new HoursPerDay(new BigDecimal(decimal));
  }

  @Override
  public Unit unit() {
    return Unit.HOURS_PER_DAY;
  }

  public boolean isAbove(HoursPerDay limit) {
    return compareTo(limit) > 0;
  }

  public boolean isBelow(HoursPerDay limit) {
    return compareTo(limit) < 0;
  }

  @Override
  public int compareTo(HoursPerDay other) {
    return number.compareTo(other.number);
  }

  @Override
  public String toString() {
    return number + " " + unit().ucum();
  }
}
