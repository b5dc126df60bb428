package org.intercusp.exchange;

import java.util.List;
import org.hl7.fhir.r4.model.Bundle;

/** How an attempt to read a patient's treatments back ended. */
public sealed interface FetchResult {

  /** A collection Bundle for each treatment found, in the order of their names; maybe none. */
  record Fetched(List<Bundle> treatments) implements FetchResult {
    public Fetched {
      treatments = List.copyOf(treatments);
    }
  }

  /** The server knows no patient with this identifier. */
  record NoSuchPatient() implements FetchResult {}

  /** The server could not be read. */
  record Failed(Difficulty difficulty, String reason, int status, String words)
      implements FetchResult {}
}
