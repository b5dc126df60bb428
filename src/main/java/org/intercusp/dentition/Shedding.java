package org.intercusp.dentition;

import java.math.BigDecimal;

/**
 * The age at which a deciduous tooth is usually shed, in years: from memory of J Am Dent Assoc
 * 2005;136:1619.
 */
public record Shedding(BigDecimal from, BigDecimal to) {

  /** Where the ages are remembered from. */
  public static final String CITATION = "J Am Dent Assoc 2005;136:1619";

  /** The usual age for a deciduous tooth; a permanent one is refused. */
  public static Shedding of(Tooth tooth) {
    if (!tooth.deciduous()) {
      throw new IllegalArgumentException("a permanent tooth is not shed: " + tooth);
    }
    boolean upper = tooth.arch() == Arch.UPPER;
    return switch (tooth.position()) {
      case 1 -> ages(6, 7);
      case 2 -> ages(7, 8);
      case 3 -> upper ? ages(10, 12) : ages(9, 12);
      case 4 -> ages(9, 11);
      default -> ages(10, 12);
    };
  }

  private static Shedding ages(int from, int to) {
    return new Shedding(BigDecimal.valueOf(from), BigDecimal.valueOf(to));
  }
}
