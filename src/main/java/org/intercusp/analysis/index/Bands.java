package org.intercusp.analysis.index;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;

/**
 * Ascending bands of a reading, each up to and with its limit: 0 up to the first limit, 1 above it
 * up to the second, and so on, compared as decimals. Gaps of printed tables (2.1 to 3, then 4) do
 * not exist here: what lies above a limit belongs to the next band.
 */
final class Bands {

  private final List<BigDecimal> limits;

  private Bands(List<BigDecimal> limits) {
    this.limits = limits;
  }

  /** Bands by their inclusive upper limits, the last band open. */
  static Bands upTo(String... limits) {
    List<BigDecimal> numbers = new ArrayList<>();
    for (String limit : limits) {
      numbers.add(new BigDecimal(limit));
    }
    return new Bands(List.copyOf(numbers));
  }

  int of(BigDecimal reading) {
    int band = 0;
    while (band < limits.size() && reading.compareTo(limits.get(band)) > 0) {
      band++;
    }
    return band;
  }
}
