package org.intercusp.analysis.film;

import java.math.BigDecimal;
import java.math.MathContext;
import org.intercusp.analysis.Reckoned;
import org.intercusp.finding.Source;
import org.intercusp.measure.Length;

/**
 * What of a correction of overjet or molar relation is skeletal and what dental, in millimetres,
 * correction positive: {@code skeletal = dPog - dA}, {@code dental = dL - dU}, each tooth within
 * its own jaw (Am J Orthod 1982;82:104-113).
 *
 * @param before overjet or molar relation on the first film
 * @param after the same on the second
 */
public record Correction(Length before, Length after, Length skeletal, Length dental) {

  public static final Source SOURCE = Source.published("Am J Orthod 1982;82:104-113");

  private static final BigDecimal HUNDRED = BigDecimal.valueOf(100);

  public static Correction between(JawReadings first, JawReadings second) {
    return new Correction(
        first.relation(),
        second.relation(),
        CorrectionPart.SKELETAL.between(first, second),
        CorrectionPart.DENTAL.between(first, second));
  }

  public Length total() {
    return skeletal.plus(dental);
  }

  Length part(CorrectionPart part) {
    return switch (part) {
      case TOTAL -> total();
      case SKELETAL -> skeletal;
      case DENTAL -> dental;
    };
  }

  /** Per cent of the total; withheld when the total is 0 or the parts pull against each other. */
  public Reckoned<BigDecimal> skeletalPercent() {
    return percent(CorrectionPart.SKELETAL);
  }

  /** Per cent of the total; withheld when the total is 0 or the parts pull against each other. */
  public Reckoned<BigDecimal> dentalPercent() {
    return percent(CorrectionPart.DENTAL);
  }

  Reckoned<BigDecimal> percent(CorrectionPart part) {
    if (skeletal.value().signum() * dental.value().signum() < 0) {
      return Reckoned.lacking("skeletal and dental parts have opposite signs");
    }
    if (total().value().signum() == 0) {
      return Reckoned.lacking("there is no correction to divide");
    }
    return Reckoned.known(
        part(part).value().multiply(HUNDRED).divide(total().value(), MathContext.DECIMAL64));
  }
}
