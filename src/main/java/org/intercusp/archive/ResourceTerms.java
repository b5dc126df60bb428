package org.intercusp.archive;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a version of a resource can be searched by, besides its identifier and its patient. Where
 * neither begin nor end is there, it speaks of no time.
 *
 * @param codes codes, each under the search parameter that finds it
 * @param begins the first instant of the time it speaks of; absent: not known
 * @param ends the first instant after that time; absent: it has not ended
 */
public record ResourceTerms(List<Code> codes, @Nullable Instant begins, @Nullable Instant ends) {

  public static final ResourceTerms NONE = new ResourceTerms(List.of(), null, null);

  public ResourceTerms {
    codes = List.copyOf(codes);
  }

  /**
   * A code.
   *
   * @param name of the search parameter, without white space
   * @param system without white space; empty: none
   * @param code without line breaks
   */
  public record Code(String name, String system, String code) {}
}
