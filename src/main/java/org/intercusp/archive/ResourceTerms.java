package org.intercusp.archive;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a version of a resource can be searched by, besides its identifier and its patient.
 *
 * @param codes codes, each under the search parameter that finds it
 * @param times days, times of day and periods, likewise
 */
public record ResourceTerms(List<Code> codes, List<Time> times) {

  public static final ResourceTerms NONE = new ResourceTerms(List.of(), List.of());

  public ResourceTerms {
    codes = List.copyOf(codes);
    times = List.copyOf(times);
  }

  /**
   * A code.
   *
   * @param name of the search parameter, at most 40 characters
   * @param system at most 400 characters; empty: none
   * @param code at most 200 characters
   */
  public record Code(String name, String system, String code) {}

  /**
   * A span of time.
   *
   * @param name of the search parameter, at most 40 characters
   * @param begins the first instant in it; absent: not known
   * @param ends the first instant after it; absent: it has not ended
   */
  public record Time(String name, @Nullable Instant begins, @Nullable Instant ends) {}
}
