package org.intercusp.measure;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/** An angle in degrees. */
public record Angle(BigDecimal value) implements Quantity, Comparable<Angle> {

  public static final Angle ZERO = new Angle(BigDecimal.ZERO);

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
    return value.compareTo(other.value);
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Angle that && value.compareTo(that.value) == 0;
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
