package org.intercusp.exchange.records;

import java.util.List;
import org.intercusp.exchange.wire.Target;
import org.intercusp.fhir.ReadBack;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.treatment.Identifier;

/** Reads a patient's treatments back from a records server as treatment files. */
public final class Retrieval {

  private final RecordsClient client;
  private final TreatmentMapper mapper;

  public Retrieval(RecordsClient client, TreatmentMapper mapper) {
    this.client = client;
    this.mapper = mapper;
  }

  /** What was found. */
  public sealed interface Found {

    /**
     * The patient's treatments, each as far as it could be read; maybe none.
     *
     * @param forbidden what the server does not let us read, a resource type or {@code Type/id}
     */
    record Treatments(List<ReadBack> treatments, List<String> forbidden) implements Found {
      public Treatments {
        treatments = List.copyOf(treatments);
        forbidden = List.copyOf(forbidden);
      }
    }

    /** The server knows no such patient. */
    record NoSuchPatient() implements Found {}

    /** The server could not be read, for this reason. */
    record NotReached(String reason, String words) implements Found {}
  }

  public Found fetch(Target target, Identifier patient) {
    FetchResult result = client.fetch(target, patient.system(), patient.value());
    if (result instanceof FetchResult.Fetched fetched) {
      return new Found.Treatments(
          fetched.treatments().stream()
              .flatMap(bundle -> mapper.treatments(bundle).stream())
              .toList(),
          fetched.forbidden());
    }
    if (result instanceof FetchResult.Failed failed) {
      return new Found.NotReached(failed.reason(), failed.words());
    }
    return new Found.NoSuchPatient();
  }
}
