package org.intercusp.fhir.search;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/** Something of a resource that it is searched by. */
public sealed interface Term {

  /** The parameter that finds it. */
  SearchedBy by();

  /**
   * A code.
   *
   * @param system empty: none
   */
  record Coded(SearchedBy by, String system, String code) implements Term {}

  /**
   * A span of time.
   *
   * @param begins the first instant in it; absent: not known
   * @param ends the first instant after it; absent: it has not ended
   */
  record Timed(SearchedBy by, @Nullable Instant begins, @Nullable Instant ends) implements Term {}
}
