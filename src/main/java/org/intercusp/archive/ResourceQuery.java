package org.intercusp.archive;

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
 */
public record ResourceQuery(
    String type,
    List<List<String>> ids,
    List<List<Token>> identifiers,
    List<List<String>> patients,
    List<List<TimeSpan>> updated) {

  public ResourceQuery {
    ids = List.copyOf(ids);
    identifiers = List.copyOf(identifiers);
    patients = List.copyOf(patients);
    updated = List.copyOf(updated);
  }

  /**
   * A business identifier or a part of one.
   *
   * @param system absent: whichever; empty: none
   * @param value absent: whichever
   */
  public record Token(@Nullable String system, @Nullable String value) {}
}
