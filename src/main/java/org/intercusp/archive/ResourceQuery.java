package org.intercusp.archive;

import java.time.Instant;
import java.util.List;
import org.intercusp.access.TimeSpan;
import org.jspecify.annotations.Nullable;

/**
 * What resources of a type are searched by. Each list is of conditions that must all hold; each
 * condition lists alternatives of which one must.
 *
 * @param type of the resources
 * @param ids logical ids
 * @param identifiers business identifiers
 * @param patients logical ids of the patients they speak of
 * @param updated when the version was taken
 * @param coded codes that they have
 * @param timed how the time they speak of stands to others
 */
public record ResourceQuery(
    String type,
    List<List<String>> ids,
    List<List<Token>> identifiers,
    List<List<String>> patients,
    List<List<TimeSpan>> updated,
    List<Coded> coded,
    List<List<Around>> timed) {

  public ResourceQuery {
    ids = List.copyOf(ids);
    identifiers = List.copyOf(identifiers);
    patients = List.copyOf(patients);
    updated = List.copyOf(updated);
    coded = List.copyOf(coded);
    timed = List.copyOf(timed);
  }

  /** All of a type that were taken in these spans of time. */
  public static ResourceQuery updated(String type, List<List<TimeSpan>> updated) {
    return new ResourceQuery(type, List.of(), List.of(), List.of(), updated, List.of(), List.of());
  }

  /** Those of a type that have one of these business identifiers. */
  public static ResourceQuery identified(String type, List<Token> any) {
    return new ResourceQuery(
        type, List.of(), List.of(any), List.of(), List.of(), List.of(), List.of());
  }

  /**
   * A business identifier, a code, or a part of one.
   *
   * @param system absent: whichever; empty: none
   * @param value absent: whichever
   */
  public record Token(@Nullable String system, @Nullable String value) {}

  /**
   * A condition on codes.
   *
   * @param name of the search parameter
   * @param none whether those are wanted that have none of the alternatives, instead of one
   */
  public record Coded(String name, boolean none, List<Token> any) {
    public Coded {
      any = List.copyOf(any);
    }
  }

  /**
   * How a time stands to a span that is given.
   *
   * @param from the first instant of the span
   * @param until the first instant after it
   */
  public record Around(Relation relation, Instant from, Instant until) {}

  /** How times stand to a span: the prefixes of FHIR R4, 3.1.1.4.5. */
  public enum Relation {
    WITHIN,
    NOT_WITHIN,
    REACHING_BEYOND,
    REACHING_BEFORE,
    WITHIN_OR_BEYOND,
    WITHIN_OR_BEFORE,
    AFTER,
    BEFORE,
    OVERLAPPING
  }
}
