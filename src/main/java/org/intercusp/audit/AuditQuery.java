package org.intercusp.audit;

import java.time.Instant;
import java.util.List;
import org.intercusp.access.TimeSpan;

/**
 * What records are searched by. Each list is of conditions that must all hold; each condition lists
 * alternatives of which one must.
 *
 * @param ids of records
 * @param times when they were recorded
 * @param moment none recorded later
 */
public record AuditQuery(List<List<String>> ids, List<List<TimeSpan>> times, Instant moment) {

  public AuditQuery {
    ids = List.copyOf(ids);
    times = List.copyOf(times);
  }

  /** A place in the trail: what comes after it is older. */
  public record Place(Instant recordedAt, String id) {}
}
