package org.intercusp.registry.report;

import java.util.List;

/**
 * Counts of which all but one give that one.
 *
 * @param adds whether the parts add up to the whole; else one of them is that and another part
 */
record CellSum(Cell whole, List<Cell> parts, boolean adds) {

  CellSum {
    parts = List.copyOf(parts);
  }

  CellSum(Cell whole, List<Cell> parts) {
    this(whole, parts, true);
  }
}
