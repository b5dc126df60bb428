package org.intercusp.rules.appliance;

import java.util.List;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.rules.rule.Case;
import org.intercusp.rules.rule.Findings;
import org.intercusp.rules.rule.Rule;
import org.intercusp.rules.rule.RuleDescription;
import org.intercusp.rules.rule.Sample;
import org.intercusp.treatment.Appliance;

/** Nothing goes into the mouth that the patient is allergic to. */
final class ApplianceAllergy implements Rule {

  static final String CODE = "appliance-allergy";

  @Override
  public RuleDescription description() {
    return RuleDescription.of(CODE, Severity.ERROR, Severity.WARNING)
        .compares("the patient's allergies with the material of the plates and the alloy of wires")
        .limit(
            "no acrylic with an acrylic allergy, nor a material that may be one; no nickel-bearing or"
                + " unknown alloy with a nickel allergy; no other allergy unread; none unasked (a"
                + " count of conflicts: 0)")
        .about(
            "/appliances/** or /patient/allergies/* or /patient",
            "Bundle.entry.resource.ofType(AllergyIntolerance)")
        .remedy("Choose another material or alloy, or test the allergy first.")
        .samples(
            Sample.failing("/appliances/0/material", "{\"/patient/allergies\": [\"acrylic\"]}"),
            Sample.passing(
                """
                {"/patient/allergies": ["acrylic", "nickel"],
                 "/appliances/0/material": "polyamide, monomer-free",
                 "/appliances/0/alloy": "nickel-free steel"}"""));
  }

  @Override
  public void check(Case about, Findings found) {
    List<String> allergies = about.treatment().patient().allergies();
    if (about.treatment().appliances().isEmpty()) {
      return;
    }
    if (allergies == null) {
      found
          .warning(Pointer.of("patient"), about.treatment().id())
          .value("allergies not asked for")
          .limit("allergies asked for")
          .remedy("Ask, and record what was said, also that there is none.")
          .says("An appliance is ordered, and nobody recorded whether there are allergies.");
      return;
    }
    List<String> acrylic =
        allergies.stream().filter(text -> Acrylic.in(text) == Holds.YES).toList();
    boolean nickel = allergies.stream().anyMatch(text -> Nickel.in(text) == Holds.YES);
    List<ApplianceAt> standing = ApplianceAt.standing(about);
    for (ApplianceAt at : ApplianceAt.all(about)) {
      boolean stands = standing.contains(at);
      if (!acrylic.isEmpty()) {
        acrylic(at, stands, String.join(", ", acrylic), found);
      }
      if (nickel && stands && hasMetal(at.appliance())) {
        nickel(at, found);
      }
    }
    others(about, allergies, found);
  }

  /**
   * A material that nobody knows is warned of like an unknown alloy: an error would stop every
   * order in a material that this list doesn't know yet, silence would let an acrylic pass under
   * its trade word.
   */
  private static void acrylic(ApplianceAt at, boolean stands, String allergy, Findings found) {
    String material = at.appliance().material();
    switch (Acrylic.in(material)) {
      case YES ->
          found
              .error(at.at("material"), at.id())
              .value(material)
              .limit("no acrylic")
              .keepingWords("AllergyWords", allergy)
              .keepingWords("MaterialWords", material)
              .says("The patient is allergic to acrylic; the material is %s.".formatted(material));
      case UNKNOWN -> {
        if (stands) {
          unknown(at, material, found);
        }
      }
      case NO -> {}
    }
  }

  private static void unknown(ApplianceAt at, String material, Findings found) {
    found
        .warning(at.at("material"), at.id())
        .value(material)
        .limit("a material known to be free of acrylic")
        .says("The patient is allergic to acrylic, which %s may contain.".formatted(material));
  }

  private static void nickel(ApplianceAt at, Findings found) {
    String alloy = at.appliance().alloy();
    if (alloy == null || Nickel.in(alloy) != Holds.NO) {
      found
          .warning(alloy == null ? at.at() : at.at("alloy"), at.id())
          .value(alloy == null ? "alloy not stated" : alloy)
          .limit("an alloy known to be free of nickel")
          .says(
              alloy == null
                  ? "The patient is allergic to nickel; the alloy of the wires is not stated."
                  : "The patient is allergic to nickel, which %s may contain.".formatted(alloy));
    }
  }

  private static void others(Case about, List<String> allergies, Findings found) {
    for (int i = 0; i < allergies.size(); i++) {
      String allergy = allergies.get(i);
      boolean compared = Acrylic.in(allergy) == Holds.YES || Nickel.in(allergy) == Holds.YES;
      if (!compared || AllergyWords.tellMore(allergy)) {
        found
            .warning(Pointer.of("patient", "allergies", i), about.treatment().id())
            .value(allergy)
            .limit("none")
            .says(
                compared
                    ? "Beside what the rules compare, %s is recorded as an allergy: read it before ordering."
                        .formatted(allergy)
                    : "An allergy is recorded that no rule can compare: read it before ordering.");
      }
    }
  }

  private static boolean hasMetal(Appliance appliance) {
    return !appliance.clasps().isEmpty()
        || appliance.labialBow() != null
        || appliance.screw() != null;
  }
}
