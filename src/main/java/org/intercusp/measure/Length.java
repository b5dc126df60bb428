package org.intercusp.measure;

import java.math.BigDecimal;

/** A length in millimetres; signs follow the member it stands in (overjet forward positive). */
public record Length(Decimal number) implements Quantity, Comparable<Length> {

  public static final Length ZERO = new Length(BigDecimal.ZERO);

  public Length(BigDecimal value) {
    this(new Decimal(value));
  }

  /**
   * Reads a plain decimal such as {@code 9.5}; refuses anything else with NumberFormatException.
   */
  public static Length of(String decimal) {
    return new Length(new BigDecimal(decimal));
  }

  @Override
  public Unit unit() {
    return Unit.MILLIMETRE;
  }

  public Length plus(Length other) {
    return new Length(value().add(other.value()));
  }

  public Length minus(Length other) {
    return new Length(value().subtract(other.value()));
  }

  public Length negated() {
    return new Length(value().negate());
  }

  public Length absolute() {
    return new Length(value().abs());
  }

  public boolean isAbove(Length limit) {
    return compareTo(limit) > 0;
  }

  public boolean isBelow(Length limit) {
    return compareTo(limit) < 0;
  }

  @Override
  public int compareTo(Length other) {
    return number.compareTo(other.number);
  }

  @Override
  public String toString() {
    return number + " " + unit().ucum();
  }
}
