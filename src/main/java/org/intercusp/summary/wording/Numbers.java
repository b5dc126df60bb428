package org.intercusp.summary.wording;

import java.math.BigDecimal;
import org.intercusp.measure.Quantity;

/** Numbers as all documents show them: plain digits, no trailing zeros, with their unit. */
public final class Numbers {

  private Numbers() {}

  public static String of(BigDecimal number) {
    BigDecimal plain = number.stripTrailingZeros();
    return (plain.scale() < 0 ? plain.setScale(0) : plain).toPlainString();
  }

  public static String of(Quantity quantity) {
    return quantity.unit().behind(of(quantity.value()));
  }
}
