package org.intercusp.fhir;

import java.util.regex.Pattern;

/**
 * The canonical URLs of our profiles, code systems and plan template, under one base that a
 * deployment may set.
 *
 * @param base an http or https URL without a slash at its end, without query or fragment
 */
public record Canonicals(String base) {

  /** No quote of JSON or FHIRPath may be in it, since the definitions are texts of both. */
  private static final Pattern BASE =
      Pattern.compile("https?://[A-Za-z0-9.-]+(:[0-9]{1,5})?(/[A-Za-z0-9._~%-]+)*");

  /** The reserved base that no deployment owns. */
  public static final Canonicals RESERVED = new Canonicals("https://intercusp.example/fhir");

  public Canonicals {
    if (!BASE.matcher(base).matches()) {
      throw new IllegalArgumentException(
          "a canonical base is an http or https URL without query, fragment or a slash at its end");
    }
  }

  /**
   * A text of ours that was written under the reserved base, as our definitions are, under this
   * one.
   */
  public String rebased(String text) {
    return text.replace(RESERVED.base, base);
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

  /** The system of the tag that names the Provenance of a delivery. */
  public String delivery() {
    return base + "/delivery";
  }

  /** The Measure a registry's report is of. */
  public String registryOutcomes() {
    return base + "/Measure/registry-outcomes";
  }

  /** The code system of the figures of a registry's report. */
  public String registryFigures() {
    return base + "/CodeSystem/registry-figure";
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
