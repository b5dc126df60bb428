package org.intercusp.fhir;

/**
 * The canonical URLs of our profiles, code systems and plan template, under one base that a
 * deployment may set.
 *
 * @param base without a slash at its end
 */
public record Canonicals(String base) {

  /** The reserved base that no deployment owns. */
  public static final Canonicals RESERVED = new Canonicals("https://intercusp.example/fhir");

  public Canonicals {
    if (base.isBlank() || base.endsWith("/")) {
      throw new IllegalArgumentException("a canonical base is a URL without a slash at its end");
    }
  }

  /** Canonical of a profile. */
  public String of(Profile profile) {
    return base + "/StructureDefinition/" + profile.kebab();
  }

  /** Canonical of a local code system, which is also the {@code system} of its codings. */
  public String of(LocalSystem system) {
    return base + "/CodeSystem/" + system.kebab();
  }

  /** The extension that says from which review a stage trims; R4 has no element for it. */
  public String fromReview() {
    return base + "/StructureDefinition/from-review";
  }

  /** The policy a consent stands under: a record goes only where the consent says it may. */
  public String consentPolicy() {
    return base + "/policy/only-where-consented";
  }

  /** The PlanDefinition every treatment plan is an instance of. */
  public String planTemplate() {
    return base + "/PlanDefinition/functional-appliance-treatment";
  }
}
