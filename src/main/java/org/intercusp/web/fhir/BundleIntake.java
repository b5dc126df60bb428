package org.intercusp.web.fhir;

import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Objects;
import java.util.function.Function;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.CanonicalType;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.Profile;
import org.springframework.stereotype.Component;

/**
 * What is taken at the base: whole Bundles, told apart by the profile they claim. Who takes another
 * kind of Bundle is added to the table.
 */
@Component
class BundleIntake {

  /**
   * A Bundle somebody submits.
   *
   * @param document as sent, which is what is judged
   * @param bundle read from it
   */
  record Submitted(Incoming document, Bundle bundle, Asked asked) {}

  private final Documents documents;
  private final Map<String, Function<Submitted, Bundle>> takers = new LinkedHashMap<>();

  BundleIntake(
      Documents documents,
      Canonicals canonicals,
      TreatmentIntake treatments,
      OutcomeTaking outcomes) {
    this.documents = documents;
    takers.put(canonicals.of(Profile.TREATMENT_BUNDLE), treatments::take);
    takers.put(canonicals.of(Profile.TREATMENT_DOCUMENT), treatments::take);
    takers.put(canonicals.of(Profile.OUTCOME_BUNDLE), outcomes::take);
  }

  /** Takes a Bundle and answers with what became of each entry. */
  Bundle take(Incoming document, Asked asked) {
    Resource resource = documents.read(document);
    if (!(resource instanceof Bundle bundle)) {
      throw notTaken(resource, "A " + resource.fhirType() + " alone is not taken here.");
    }
    return bundle.getMeta().getProfile().stream()
        .map(CanonicalType::getValue)
        // One that is null or has no text is still an element of the list.
        .filter(Objects::nonNull)
        .map(profile -> takers.get(profile.split("\\|", 2)[0]))
        .filter(Objects::nonNull)
        .findFirst()
        .orElseThrow(
            () -> notTaken(bundle, "The Bundle claims no profile in meta.profile that is taken."))
        .apply(new Submitted(document, bundle, asked));
  }

  private Fault notTaken(Resource sent, String why) {
    return Fault.of(
        Reason.NOT_TAKEN,
        why
            + " The base takes Bundles that claim "
            + String.join(" or ", takers.keySet())
            + "; treatment files are taken at /treatments; any resource is judged, and not kept, at"
            + " /fhir/$validate.",
        sent.fhirType());
  }
}
