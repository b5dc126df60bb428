package org.intercusp.measure;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/** A share of a whole as a pure ratio; 0.7 means 70 %. */
public record Share(BigDecimal value) implements Quantity, Comparable<Share> {

  public static final Share ZERO = new Share(BigDecimal.ZERO);

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
    return value.compareTo(other.value);
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Share that && value.compareTo(that.value) == 0;
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
