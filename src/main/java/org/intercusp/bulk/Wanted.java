package org.intercusp.bulk;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is asked for.
 *
 * @param types of the resources, in the order of the files
 * @param since only what was taken then or later; absent: everything
 * @param request the URL as it was written, which the manifest repeats
 */
public record Wanted(List<String> types, @Nullable Instant since, String request) {

  public Wanted {
    types = List.copyOf(types);
  }
}
