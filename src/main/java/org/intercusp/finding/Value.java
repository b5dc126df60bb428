package org.intercusp.finding;

import java.math.BigDecimal;
import org.intercusp.measure.Unit;
import org.jspecify.annotations.Nullable;

/** A value or a limit in a finding or figure: a number with its unit elsewhere, or words. */
public sealed interface Value {

  /** A number, compared by size and not by how it is written. */
  record Numeric(BigDecimal number) implements Value {
    @Override
    public String shown() {
      return number.toPlainString();
    }
  }

  /** Words: a code, a date, a range such as {@code 45-90}. */
  record Text(String text) implements Value {
    @Override
    public String shown() {
      return text;
    }
  }

  static Value of(BigDecimal number) {
    return new Numeric(number);
  }

  static Value of(String text) {
    return new Text(text);
  }

  /** What a person reads, without a unit. */
  String shown();

  /** What a person reads, with the unit where there is one. */
  default String shown(@Nullable Unit unit) {
    return unit == null ? shown() : unit.behind(shown());
  }
}
