package org.intercusp.analysis.agreement;

/**
 * One case followed for a time.
 *
 * @param time in one unit for all, days in a registry; finite and not negative
 */
public record Followed(double time, Ending ending) {

  public Followed {
    if (!(time >= 0) || Double.isInfinite(time)) {
      throw new IllegalArgumentException("a time is finite and not negative");
    }
  }

  /** How the following ended. */
  public enum Ending {
    /** What was waited for came. */
    EVENT,
    /** Something else came that keeps it from coming. */
    COMPETING,
    /** Nothing came while the case was watched. */
    CENSORED
  }
}
