package org.intercusp.audit;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What records are searched by. Each list is of conditions that must all hold; each condition lists
 * alternatives of which one must.
 *
 * @param ids of records
 * @param times when they were recorded
 * @param moment none recorded later
 */
public record AuditQuery(List<List<String>> ids, List<List<Span>> times, Instant moment) {

  public AuditQuery {
    ids = List.copyOf(ids);
    times = List.copyOf(times);
  }

  /**
   * A span of time.
   *
   * @param from the first instant in it; absent: since ever
   * @param until the first instant after it; absent: for ever
   * @param inside whether the time is in it, or else out of it
   */
  public record Span(@Nullable Instant from, @Nullable Instant until, boolean inside) {}

  /** A place in the trail: what comes after it is older. */
  public record Place(Instant recordedAt, String id) {}
}
