package org.intercusp.registry.report;

import org.intercusp.analysis.agreement.Proportion;
import org.intercusp.analysis.cohort.Discontinuation;

/**
 * A share by which clinics are compared: the columns it is counted from, and who is judged by it.
 */
enum Compared {
  DISCONTINUED("end_discontinued", "end_known", "end_all"),
  GREATLY_IMPROVED("uk_greatly", "large_n", "large_due");

  static final String NOT_JUDGED = "under 80 % known: shown, not judged";

  private final String events;
  private final String whole;
  private final String due;

  /**
   * Names the columns.
   *
   * @param events cases it happened to
   * @param whole cases in which that is known
   * @param due cases in which it should be known
   */
  Compared(String events, String whole, String due) {
    this.events = events;
    this.whole = whole;
    this.due = due;
  }

  String events() {
    return events;
  }

  String whole() {
    return whole;
  }

  String due() {
    return due;
  }

  /** The share itself, among what is known. */
  Proportion share(Cube cube, Slice slice) {
    return new Proportion(cube.count(slice, events), cube.count(slice, whole));
  }

  /** How much of what should be known is. */
  Proportion known(Cube cube, Slice slice) {
    return new Proportion(cube.count(slice, whole), cube.count(slice, due));
  }

  /** Whether a clinic may be judged by so many of the cases that should be known. */
  boolean judged(Cube cube, Slice clinic, int cases) {
    return Discontinuation.mayBeJudged(new Proportion(cases, cube.count(clinic, due)));
  }

  boolean judged(Cube cube, Slice clinic) {
    return judged(cube, clinic, cube.count(clinic, whole));
  }

  boolean hidden(SmallCells cells, Slice slice) {
    return cells.hidden(slice, events) || cells.hidden(slice, whole);
  }
}
