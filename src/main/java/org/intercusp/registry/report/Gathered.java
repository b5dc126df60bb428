package org.intercusp.registry.report;

import java.util.List;
import java.util.Map;

/**
 * What an engine brought back, all the statistics need.
 *
 * @param counting rows and why rows did not count
 * @param cube counts and sums by group
 * @param known how many cases have each field
 * @param ends by group, standing and day
 * @param attended the discontinued by the day they were last seen
 * @param twice cases scored twice
 */
public record Gathered(
    Map<String, Long> counting,
    Cube cube,
    Map<String, Integer> known,
    List<Ends> ends,
    List<Ends> attended,
    List<Twice> twice) {

  /** So many cases of a standing at a day from the first active fitting. */
  public record Ends(Slice slice, Standing standing, boolean longEnough, int day, int cases) {

    /** The day of a case whose end or fitting is not dated. */
    public static final int UNDATED = -1;

    private static final int WEEK = 16;

    /**
     * Those of a week.
     *
     * @param ending week, standing and whether long enough, as the SQL packs them
     */
    static Ends weekly(Slice slice, int ending, int cases) {
      int week = Math.floorDiv(ending, WEEK);
      int rest = Math.floorMod(ending, WEEK);
      return new Ends(
          slice, Standing.numbered(rest / 2), rest % 2 == 1, week < 0 ? UNDATED : 7 * week, cases);
    }
  }

  /** So many cases with these two scores. */
  public record Twice(int first, int again, int cases) {}

  /** A clinic's cases in a model: what happened and what was expected among them. */
  public record Expected(Slice clinic, int cases, int observed, double expected, double variance) {}
}
