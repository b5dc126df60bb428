package org.intercusp.analysis.film;

import java.math.BigDecimal;
import org.intercusp.finding.Source;
import org.intercusp.measure.Unit;

/**
 * A published mean with its standard deviation, in the unit of its measurement. The means of a set
 * do not close to 360 degrees, so one is never derived from the others.
 */
public record Norm(BigDecimal mean, BigDecimal deviation) {

  /** Recalled, not read again. */
  public static final Source SOURCE = Source.memoryOf("the Eastman norms");

  static Norm of(int mean, int deviation) {
    return new Norm(BigDecimal.valueOf(mean), BigDecimal.valueOf(deviation));
  }

  /** Whether a value lies above the mean by more than one standard deviation. */
  public boolean exceededBy(BigDecimal value) {
    return value.compareTo(mean.add(deviation)) > 0;
  }

  /** Whether a value lies within one standard deviation of the mean, limits included. */
  public boolean covers(BigDecimal value) {
    return value.subtract(mean).abs().compareTo(deviation) <= 0;
  }

  /** Whether a limit of the usual range lies within the standard uncertainty of a value. */
  public boolean borderline(BigDecimal value, double uncertainty) {
    BigDecimal away = value.subtract(mean).abs();
    return away.subtract(deviation).abs().doubleValue() <= uncertainty;
  }

  String shown(Unit unit) {
    return unit.behind(mean.toPlainString() + " ± " + deviation.toPlainString());
  }
}
