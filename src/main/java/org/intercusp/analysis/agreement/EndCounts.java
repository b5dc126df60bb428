package org.intercusp.analysis.agreement;

import java.util.SortedMap;
import java.util.TreeMap;

/** How many cases ended how at which time, in one unit: days in a registry. */
public final class EndCounts {

  private final SortedMap<Double, SurvivalCurve.Tally> byTime = new TreeMap<>();
  private int cases;

  /** Adds so many cases of one time and ending. */
  public void add(Followed followed, int more) {
    byTime
        .computeIfAbsent(followed.time() + 0.0, time -> new SurvivalCurve.Tally())
        .add(followed.ending(), more);
    cases += more;
  }

  public int cases() {
    return cases;
  }

  SortedMap<Double, SurvivalCurve.Tally> byTime() {
    return byTime;
  }

  /** Cases of an ending after one time and until another, the last included. */
  public int between(double after, double until, Followed.Ending ending) {
    return byTime.subMap(Math.nextUp(after), Math.nextUp(until)).values().stream()
        .mapToInt(tally -> tally.of(ending))
        .sum();
  }
}
