package org.intercusp.rules.rule;

import java.math.BigDecimal;
import java.math.RoundingMode;
import org.intercusp.measure.Quantity;
import org.intercusp.measure.Share;

/** Numbers as a message shows them: plain digits, no trailing zeros. */
public final class Shown {

  private Shown() {}

  /** A number with its unit. */
  public static String of(Quantity quantity) {
    if (quantity instanceof Share share) {
      return percent(share);
    }
    return quantity.unit().behind(of(quantity.value()));
  }

  /** A bare number. */
  public static String of(BigDecimal number) {
    BigDecimal plain = number.stripTrailingZeros();
    return (plain.scale() < 0 ? plain.setScale(0) : plain).toPlainString();
  }

  /**
   * A number that lies above a limit, to one decimal; rounded up where it would otherwise read as
   * the limit itself.
   */
  public static BigDecimal above(BigDecimal number, BigDecimal limit) {
    BigDecimal near = number.setScale(1, RoundingMode.HALF_UP);
    return near.compareTo(limit) > 0 ? near : number.setScale(1, RoundingMode.UP);
  }

  /** A binary number to so many decimals. */
  public static BigDecimal rounded(double number, int decimals) {
    return BigDecimal.valueOf(number).setScale(decimals, RoundingMode.HALF_UP);
  }

  private static String percent(Share share) {
    return of(share.value().movePointRight(2).setScale(2, RoundingMode.HALF_UP)) + " %";
  }

  /** A share to four decimals, as findings and figures give it. */
  public static BigDecimal rounded(Share share) {
    return share.value().setScale(4, RoundingMode.HALF_UP);
  }
}
