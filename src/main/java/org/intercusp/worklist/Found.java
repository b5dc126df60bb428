package org.intercusp.worklist;

import java.util.List;
import java.util.Map;

/**
 * A page of the list.
 *
 * @param matches how many there are in all for the words and the filter
 * @param counts how many the words alone give, by reason for attention
 * @param all how many the words alone give
 * @param clinics how many clinics have treatments here
 * @param waiting how many treatments are not judged for today yet, and so may be missing or show
 *     findings of an earlier day
 */
public record Found(
    List<Listed> page,
    long matches,
    Map<Attention, Long> counts,
    long all,
    long clinics,
    long waiting) {

  public Found {
    page = List.copyOf(page);
    counts = Map.copyOf(counts);
  }

  /**
   * A treatment with what depends on today.
   *
   * @param overdue whether its review is past its day by more than the grace
   * @param delivery whether a delivery of it needs a person
   * @param proposal whether a recipient's people changed something that needs a decision
   */
  public record Listed(Entry entry, boolean overdue, boolean delivery, boolean proposal) {}
}
