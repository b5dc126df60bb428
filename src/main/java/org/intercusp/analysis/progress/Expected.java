package org.intercusp.analysis.progress;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import org.intercusp.finding.Source;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Length;

/**
 * The mean course of two groups of a published trial, by prescribed wear: 7.0 (SD 2.92) mm in
 * twelve months at 12 h a day, of which 8.78 h were achieved, and 6.5 (SD 2.62) mm at 22 h, of
 * which 12.38 h were achieved. A mean of a group, not a promise to a patient.
 */
public enum Expected {
  PART_TIME("12", "7.0", "2.92", "0.58"),
  FULL_TIME("22", "6.5", "2.62", "0.54");

  /** The trial. */
  public static final Source SOURCE =
      Source.published("Am J Orthod Dentofacial Orthop 2019;155:165-172");

  private static final BigDecimal BETWEEN = BigDecimal.valueOf(17);

  private final BigDecimal prescribed;
  private final BigDecimal inTwelveMonths;
  private final BigDecimal deviation;
  private final BigDecimal rate;

  Expected(String prescribed, String inTwelveMonths, String deviation, String rate) {
    this.prescribed = new BigDecimal(prescribed);
    this.inTwelveMonths = new BigDecimal(inTwelveMonths);
    this.deviation = new BigDecimal(deviation);
    this.rate = new BigDecimal(rate);
  }

  /** The group whose prescribed wear is nearer; the full-time one from 17 h a day. */
  public static Expected at(HoursPerDay prescribed) {
    return prescribed.value().compareTo(BETWEEN) >= 0 ? FULL_TIME : PART_TIME;
  }

  public HoursPerDay prescribed() {
    return new HoursPerDay(prescribed);
  }

  /** Mean reduction of the overjet in twelve months. */
  public Length inTwelveMonths() {
    return new Length(inTwelveMonths);
  }

  /** Standard deviation of the reduction in twelve months. */
  public Length deviation() {
    return new Length(deviation);
  }

  /** Mean reduction in millimetres a month. */
  public BigDecimal rate() {
    return rate;
  }

  /** The overjet expected on a day, no lower than zero, to a tenth of a millimetre. */
  public Length overjet(Length atFitting, LocalDate fitted, LocalDate on) {
    double months = Math.max(0, Progress.months(fitted, on));
    double left = atFitting.asDouble() - rate.doubleValue() * months;
    return new Length(
        BigDecimal.valueOf(
                Math.max(Math.min(left, atFitting.asDouble()), Math.min(0, atFitting.asDouble())))
            .setScale(1, RoundingMode.HALF_UP));
  }
}
