package org.intercusp.conformance;

import ca.uhn.fhir.context.FhirContext;
import ca.uhn.fhir.context.support.DefaultProfileValidationSupport;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import org.intercusp.fhir.Canonicals;

/**
 * What documents of a FhirContext are judged by: the profiles with their snapshots, the fragments
 * of others' code systems, and the validator that knows both. Making them takes seconds and nothing
 * changes them, so they are made once for a context and a base, however many judges share them.
 */
record Definitions(ProfilesPackage profiles, Fragments fragments, GeneralValidator general) {

  private static final Map<Under, Definitions> MADE = new ConcurrentHashMap<>();

  /** What they are made for. */
  private record Under(FhirContext context, Canonicals canonicals) {}

  static Definitions of(FhirContext context, Canonicals canonicals) {
    return MADE.computeIfAbsent(new Under(context, canonicals), Definitions::made);
  }

  private static Definitions made(Under under) {
    FhirContext context = under.context();
    DefaultProfileValidationSupport base = new DefaultProfileValidationSupport(context);
    ProfilesPackage profiles = ProfilesPackage.load(context, base, under.canonicals());
    Fragments fragments = new Fragments(context);
    return new Definitions(
        profiles, fragments, new GeneralValidator(context, base, profiles, fragments));
  }
}
