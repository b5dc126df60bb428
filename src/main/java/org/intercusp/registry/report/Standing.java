package org.intercusp.registry.report;

import java.util.List;

/** Where a case stood at the cut-off. */
public enum Standing {
  GOING_ON,
  COMPLETED,
  DISCONTINUED,
  TRANSFERRED,
  UNKNOWN;

  /** In the order of the numbers the SQL gives. */
  private static final List<Standing> NUMBERED =
      List.of(GOING_ON, COMPLETED, DISCONTINUED, TRANSFERRED, UNKNOWN);

  static Standing numbered(long number) {
    return NUMBERED.get(Math.toIntExact(number));
  }
}
