package org.intercusp.measure;

import java.math.BigDecimal;
import org.jspecify.annotations.Nullable;

/**
 * A decimal number with no unit of its own, equal by size: 9 and 9.0 are the same number. The
 * digits as written are kept for the way out.
 */
public record Decimal(BigDecimal value) implements Comparable<Decimal> {

  /** Reads a plain decimal; refuses anything else with NumberFormatException. */
  public static Decimal of(String decimal) {
    return new Decimal(new BigDecimal(decimal));
  }

  @Override
  public int compareTo(Decimal other) {
    return value.compareTo(other.value);
  }

  @Override
  public boolean equals(@Nullable Object other) {
    return other instanceof Decimal that && value.compareTo(that.value) == 0;
  }

  @Override
  public int hashCode() {
    return value.stripTrailingZeros().hashCode();
  }

  @Override
  public String toString() {
    return value.toPlainString();
  }
}
