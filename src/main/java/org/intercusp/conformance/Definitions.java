package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;

/**
 * What documents of a FhirContext are judged by: the profiles with their snapshots, the fragments
 * of others' code systems, and the validator that knows both. Making them takes seconds and nothing
 * changes them, so they are made once for a context, however many judges share it.
 */
record Definitions(ProfilesPackage profiles, Fragments fragments, GeneralValidator general) {

  private static final Map<FhirContext, Definitions> MADE = new ConcurrentHashMap<>();

  static Definitions of(FhirContext context) {
    return MADE.computeIfAbsent(context, Definitions::made);
  }

  private static Definitions made(FhirContext context) {
    DefaultProfileValidationSupport base = new DefaultProfileValidationSupport(context);
    ProfilesPackage profiles = ProfilesPackage.load(context, base);
    Fragments fragments = new Fragments(context);
    return new Definitions(
        profiles, fragments, new GeneralValidator(context, base, profiles, fragments));
  }
}
