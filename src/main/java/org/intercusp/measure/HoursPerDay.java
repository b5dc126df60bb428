package org.intercusp.measure;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/** Hours a day an appliance is worn. */
public record HoursPerDay(BigDecimal value) implements Quantity, Comparable<HoursPerDay> {

  public static final HoursPerDay ZERO = new HoursPerDay(BigDecimal.ZERO);

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
    return value.compareTo(other.value);
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof HoursPerDay that && value.compareTo(that.value) == 0;
  }

  @Override
  public int hashCode() {
    return value.stripTrailingZeros().hashCode();
  }

  @Override
  public String toString() {
    return value.toPlainString() + " " + unit().ucum();
  }
}
