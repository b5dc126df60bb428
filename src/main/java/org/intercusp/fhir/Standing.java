package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;

/**
 * A resource of a treatment that stands by itself.
 *
 * @param resource with its logical id; references name logical ids
 * @param id the logical id
 * @param identifier its business identifier
 * @param shared whether other treatments of the clinic may say it too
 * @param patient logical id of the patient it speaks of; absent where it speaks of none
 */
public record Standing(
    DomainResource resource,
    String id,
    Identifier identifier,
    boolean shared,
    @Nullable String patient) {

  /** The logical ids a resource of a clinic may have here: one for each of its identifiers. */
  public static List<String> possibleIds(Identifier clinic, @Nullable Resource resource) {
    return resource == null
        ? List.of()
        : BundleIndex.identifiers(resource).stream()
            .filter(one -> one.hasSystem() && one.hasValue())
            .map(one -> new Identifier(one.getSystem(), one.getValue()))
            .map(one -> Identity.logicalId(clinic, resource.fhirType(), one))
            .toList();
  }
}
