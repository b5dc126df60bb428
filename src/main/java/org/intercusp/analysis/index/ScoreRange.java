package org.intercusp.analysis.index;

/**
 * A score with what it could be within the reading error, in its points.
 *
 * @param lowest if every reading were smaller by its standard uncertainty
 * @param scored from the readings as they stand
 * @param highest if every reading were larger by its standard uncertainty
 */
public record ScoreRange(int lowest, int scored, int highest) {

  public ScoreRange {
    if (lowest > scored || scored > highest) {
      throw new IllegalArgumentException("a score lies within its range");
    }
  }

  /** Whether a reading lies within its uncertainty of a limit that changes the score. */
  public boolean borderline() {
    return lowest < highest;
  }
}
