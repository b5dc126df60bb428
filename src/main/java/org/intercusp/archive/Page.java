package org.intercusp.archive;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A page of a long list, in the order of the keys.
 *
 * @param next the key to ask the next page after; absent on the last page
 * @param total how many there are in all
 */
public record Page(List<StoredTreatment> treatments, @Nullable TreatmentKey next, long total) {

  public Page {
    treatments = List.copyOf(treatments);
  }
}
