package org.intercusp.scenario;

/** Puts readings into the bands that an examiner scores by. */
final class Bands {

  private Bands() {}

  /** How many of the limits a value is above. */
  static int steps(double value, double... limits) {
    int score = 0;
    for (double limit : limits) {
      score += value > limit ? 1 : 0;
    }
    return score;
  }

  /** Grade of treatment need by the overjet alone, in mm (from memory of the DHC of the IOTN). */
  static String grade(double overjet) {
    return overjet > 9 ? "5a" : overjet > 6 ? "4a" : overjet > 3.5 ? "3a" : "1";
  }
}
