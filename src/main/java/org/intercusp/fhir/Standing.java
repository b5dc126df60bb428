package org.intercusp.fhir;

import org.hl7.fhir.r4.model.DomainResource;
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
    @Nullable String patient) {}
