package org.intercusp.exchange.records;

import java.util.List;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.wire.Difficulty;

/** How an attempt to read a patient's treatments back ended. */
public sealed interface FetchResult {

  /**
   * A collection Bundle for each treatment found, in the order of their names; maybe none.
   *
   * @param forbidden what the server does not let us read, a resource type or {@code Type/id}: the
   *     treatments lack it, whether or not it is there
   */
  record Fetched(List<Bundle> treatments, List<String> forbidden) implements FetchResult {
    public Fetched {
      treatments = List.copyOf(treatments);
      forbidden = List.copyOf(forbidden);
    }
  }

  /** The server knows no patient with this identifier. */
  record NoSuchPatient() implements FetchResult {}

  /** The server could not be read. */
  record Failed(Difficulty difficulty, String reason, int status, String words)
      implements FetchResult {}
}
