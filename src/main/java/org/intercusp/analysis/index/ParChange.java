package org.intercusp.analysis.index;

import java.math.BigDecimal;
import java.math.MathContext;
import org.intercusp.analysis.Reckoned;

/**
 * Change of a weighted peer assessment rating, in points (Eur J Orthod 1992;14:180-187).
 *
 * @param before weighted score before treatment, not negative
 * @param after weighted score after it, not negative
 */
public record ParChange(int before, int after) {

  private static final int IMPROVED_PERCENT = 30;
  private static final int GREATLY_POINTS = 22;

  public ParChange {
    if (before < 0 || after < 0) {
      throw new IllegalArgumentException("a rating is not negative");
    }
  }

  /** Points less than before; negative when worse. */
  public int reduction() {
    return before - after;
  }

  /** The reduction in per cent of the score before; none when that was 0. */
  public Reckoned<BigDecimal> percent() {
    return before == 0
        ? Reckoned.lacking("the score before was 0, which has no percentage")
        : Reckoned.known(
            BigDecimal.valueOf(100L * reduction())
                .divide(BigDecimal.valueOf(before), MathContext.DECIMAL64));
  }

  /** The class of improvement; both boundaries belong to the better class. */
  public Reckoned<Improvement> improvement() {
    if (before == 0) {
      return Reckoned.lacking("the score before was 0, which has no percentage");
    }
    boolean improved = 100L * reduction() >= (long) IMPROVED_PERCENT * before;
    if (!improved) {
      return Reckoned.known(Improvement.WORSE_OR_NO_DIFFERENT);
    }
    return Reckoned.known(
        reduction() >= GREATLY_POINTS ? Improvement.GREATLY_IMPROVED : Improvement.IMPROVED);
  }

  /** At least 30 % is improved; with at least 22 points, greatly improved. */
  public enum Improvement {
    WORSE_OR_NO_DIFFERENT("worse or no different"),
    IMPROVED("improved"),
    GREATLY_IMPROVED("greatly improved");

    private final String shown;

    Improvement(String shown) {
      this.shown = shown;
    }

    public String shown() {
      return shown;
    }
  }
}
