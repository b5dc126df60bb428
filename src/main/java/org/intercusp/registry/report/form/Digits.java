package org.intercusp.registry.report.form;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;

/** A figure's number, the same digits in every form, and a short one for people. */
final class Digits {

  /**
   * Sums follow the order in which an engine's threads add up, so what is behind these is chance.
   * Twelve: common practice, no source.
   */
  private static final MathContext CERTAIN = new MathContext(12);

  private Digits() {}

  /** The digits that the same registry gives at every asking, twelve; never with an exponent. */
  static BigDecimal exact(double value) {
    BigDecimal decimal = BigDecimal.valueOf(value).round(CERTAIN);
    BigDecimal bare = decimal.signum() == 0 ? BigDecimal.ZERO : decimal.stripTrailingZeros();
    return bare.scale() < 0 ? bare.setScale(0) : bare;
  }

  static String text(double value) {
    return exact(value).toPlainString();
  }

  /** For a person: counts whole, others with two places, small ones with three digits. */
  static String shown(double value) {
    BigDecimal exact = exact(value);
    if (exact.scale() <= 0) {
      return exact.toPlainString();
    }
    int places = Math.abs(value) < 0.1 ? 4 : Math.abs(value) < 10 ? 2 : 1;
    return exact.setScale(places, RoundingMode.HALF_UP).toPlainString();
  }
}
