package org.intercusp.scenario;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.List;
import java.util.SplittableRandom;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Length;

/**
 * Random draws that are the same on every machine: only exactly defined arithmetic ({@link
 * StrictMath}) stands between the seed and the drawn number.
 */
final class Draw {

  private final SplittableRandom random;

  Draw(long seed, int index) {
    // Neighbouring indexes would start neighbouring sequences; the odd factor (2^64 / golden ratio)
    // and the generator's own mixing spread them.
    this.random = new SplittableRandom(seed ^ (index * 0x9E3779B97F4A7C15L));
  }

  boolean chance(double probability) {
    return random.nextDouble() < probability;
  }

  /** A whole number from least to most, both included. */
  int whole(int least, int most) {
    return least + random.nextInt(most - least + 1);
  }

  double between(double least, double most) {
    return least + (most - least) * random.nextDouble();
  }

  /** A normally distributed number, cut to a range. */
  double normal(double mean, double sd, double least, double most) {
    double radius = StrictMath.sqrt(-2 * StrictMath.log(1 - random.nextDouble()));
    double angle = 2 * StrictMath.PI * random.nextDouble();
    return Math.max(least, Math.min(most, mean + sd * radius * StrictMath.cos(angle)));
  }

  <T> T pick(List<T> choices) {
    return choices.get(random.nextInt(choices.size()));
  }

  /** To half a millimetre, as a ruler or sliding scale is read. */
  static Length half(double millimetres) {
    return new Length(decimal(StrictMath.round(millimetres * 2) / 2.0, 1));
  }

  /** To a tenth, as a caliper is read. */
  static Length tenth(double millimetres) {
    return new Length(decimal(millimetres, 1));
  }

  static Decimal rounded(double number, int decimals) {
    return new Decimal(decimal(number, decimals));
  }

  static BigDecimal decimal(double number, int decimals) {
    BigDecimal value =
        BigDecimal.valueOf(number).setScale(decimals, RoundingMode.HALF_UP).stripTrailingZeros();
    return value.scale() < 0 ? value.setScale(0) : value;
  }
}
