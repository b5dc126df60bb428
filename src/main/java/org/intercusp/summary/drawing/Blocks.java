package org.intercusp.summary.drawing;

import java.util.Optional;
import org.intercusp.dentition.Arch;
import org.intercusp.treatment.Appliance;

/**
 * Where posterior teeth stand from the side: distances behind the upper incisal edge in mm, by
 * position from the midline (common practice, no source).
 */
final class Blocks {

  private Blocks() {}

  static Optional<Appliance.Block> first(Appliance appliance, Arch arch) {
    return appliance.blocks().stream().filter(block -> block.arch() == arch).findFirst();
  }

  /** Middle of an upper tooth. */
  static double upper(int position) {
    return switch (position) {
      case 1 -> 1;
      case 2 -> 4;
      case 3 -> 7;
      case 4 -> 14;
      case 5 -> 22;
      case 6 -> 31;
      case 7 -> 41;
      default -> 50;
    };
  }

  /** Middle of a lower tooth behind the lower incisal edge: a premolar's half before the upper. */
  static double lower(int position) {
    return Math.max(1, upper(position) - 5);
  }

  static double width(int position) {
    return position >= 6 ? 10 : position >= 4 ? 7 : 5;
  }
}
