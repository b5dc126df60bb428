package org.intercusp.registry.privacy;

import java.time.LocalDate;
import java.time.Period;
import java.time.YearMonth;

/**
 * How far dates and ages are reduced before they are kept. A period is named by its first month.
 *
 * @param months 1 keeps the month, 3 the quarter, 12 the year
 * @param ageMonths 1 keeps the age in months, 6 in half years, 12 in years
 */
public record Reduction(int months, int ageMonths) {

  /** Month, and age in months. */
  public static final Reduction DEFAULT = new Reduction(1, 1);

  public Reduction {
    if (months != 1 && months != 3 && months != 12) {
      throw new IllegalArgumentException("dates are reduced to 1, 3 or 12 months");
    }
    if (ageMonths != 1 && ageMonths != 6 && ageMonths != 12) {
      throw new IllegalArgumentException("ages are reduced to 1, 6 or 12 months");
    }
  }

  /** The period a day lies in, as YYYY-MM. */
  public String period(LocalDate day) {
    int first = (day.getMonthValue() - 1) / months * months + 1;
    return YearMonth.of(day.getYear(), first).toString();
  }

  /** Whole months lived, rounded down. */
  public int age(LocalDate birth, LocalDate on) {
    int lived = (int) Period.between(birth, on).toTotalMonths();
    return lived / ageMonths * ageMonths;
  }
}
