package org.intercusp.worklist;

import java.util.Locale;

/** What the list is sorted by; treatments that are alike stand in the order of their names. */
public enum Order {
  /**
   * Urgent first, then errors, overdue, deliveries, proposals; the earliest review first within
   * each.
   */
  ATTENTION,
  NAME,
  ID,
  /** The earliest next review first. */
  REVIEW,
  /** The largest overjet first. */
  OVERJET,
  /** The latest stored first. */
  NEWEST;

  /** As it stands in an address. */
  public String code() {
    return name().toLowerCase(Locale.ROOT);
  }
}
