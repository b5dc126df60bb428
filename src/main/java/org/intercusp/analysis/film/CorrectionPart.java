package org.intercusp.analysis.film;

import org.hipparchus.analysis.differentiation.Gradient;
import org.intercusp.measure.Length;

/**
 * A correction of overjet or molar relation and its parts, by how the changes of A, Pog, the upper
 * and the lower tooth count in it (Am J Orthod 1982;82:104-113).
 */
enum CorrectionPart {
  TOTAL("total", 0, 0, -1, 1),
  SKELETAL("skeletal", -1, 1, 0, 0),
  /** Each tooth within its own jaw. */
  DENTAL("dental", 1, -1, -1, 1);

  private final String code;
  private final int upperBase;
  private final int lowerBase;
  private final int upperTooth;
  private final int lowerTooth;

  CorrectionPart(String code, int upperBase, int lowerBase, int upperTooth, int lowerTooth) {
    this.code = code;
    this.upperBase = upperBase;
    this.lowerBase = lowerBase;
    this.upperTooth = upperTooth;
    this.lowerTooth = lowerTooth;
  }

  String code() {
    return code;
  }

  Length between(JawReadings first, JawReadings second) {
    return counted(second).minus(counted(first));
  }

  private Length counted(JawReadings readings) {
    return counted(readings.upperBase(), upperBase)
        .plus(counted(readings.lowerBase(), lowerBase))
        .plus(counted(readings.upperTooth(), upperTooth))
        .plus(counted(readings.lowerTooth(), lowerTooth));
  }

  private static Length counted(Length distance, int times) {
    return switch (times) {
      case 1 -> distance;
      case -1 -> distance.negated();
      default -> Length.ZERO;
    };
  }

  Gradient between(JawDistances first, JawDistances second) {
    return counted(second).subtract(counted(first));
  }

  private Gradient counted(JawDistances distances) {
    return distances
        .upperBase()
        .multiply(upperBase)
        .add(distances.lowerBase().multiply(lowerBase))
        .add(distances.upperTooth().multiply(upperTooth))
        .add(distances.lowerTooth().multiply(lowerTooth));
  }
}
