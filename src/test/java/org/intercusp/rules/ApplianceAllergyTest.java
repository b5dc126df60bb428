package org.intercusp.rules;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;

import java.util.List;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.treatment.Treatment;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** How materials and alloys are worded, against a patient allergic to acrylic and nickel. */
class ApplianceAllergyTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Plastocryl",
        "plasto-cryl, clear",
        "Novacryl",
        "Plastocryl free of residual monomer",
        "cold-polymerised resin",
        "autopolymerizing base material",
        "heat-cured acrylic, residual monomer-free",
        "MMA-free methacrylate",
        "polyamide with acrylic blocks",
        "acrylic-free clasps in heat-cured acrylic",
        "acrílico termocurado",
        "urethane UDMA",
        "PMMA",
        "acrylic-free clasps, light-cured resin base",
        "acrylic-free clasps in light-cured resin",
        "light-cured resin with acrylic-free glaze",
        "light-cured resin, clasps acrylic-free",
        "resin, not acrylic-free"
      })
  void anAcrylicByAnyWordIsAnError(String material) {
    assertThat(found(material, "nickel-free steel"))
        .extracting(Finding::severity, finding -> finding.pointer().text())
        .containsExactly(tuple(Severity.ERROR, "/appliances/0/material"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Plastodent",
        "clear thermoformed sheet",
        "light-cured resin, monomer-free",
        "light-cured resin, free of methyl methacrylate",
        "light-cured resin, methyl methacrylate-free",
        "methyl methacrylate-free light-cured resin",
        "cold-cured resin without methacrylate monomer",
        "light-cured resin, MMA-free",
        "PMMA-free resin",
        "methacrylate-free base",
        "clear base free of acrylic monomer",
        "acrylic-free clasps, Plastodent base"
      })
  void aMaterialThatNobodyKnowsIsAWarning(String material) {
    assertThat(found(material, "nickel-free steel"))
        .extracting(Finding::severity, finding -> finding.pointer().text())
        .containsExactly(tuple(Severity.WARNING, "/appliances/0/material"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "polyamide",
        "polyamide, monomer-free",
        "polyamide free of methacrylate",
        "polyester without methyl methacrylate",
        "acrylic-free light-cured resin",
        "non-acrylic base",
        "PET-G sheet",
        "light-cured resin, acrylic-free",
        "light-cured resin (acrylic-free)",
        "acrylic-free light-cured resin, clear, 2 mm",
        "polyamide, methacrylate-free",
        "polyamide with acrylic-free blocks"
      })
  void aMaterialKnownToBeFreeOfItIsNotFound(String material) {
    assertThat(found(material, "nickel-free steel")).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "stainless steel, polymer coated",
        "stainless steel, gold plated",
        "titanium-coated stainless steel",
        "gold-plated wire",
        "cobalt chrome in a plastic sleeve",
        "white gold",
        "superelastic titanium",
        "NiTi",
        "nickel titanium",
        "nickel-free clasps, nickel titanium bow",
        "wire",
        "stainless steel, nickel-free coating",
        "stainless steel with nickel-free coating",
        "stainless steel nickel-free coating",
        "stainless steel, coating nickel-free",
        "18/8 stainless steel wires, nickel-free solder",
        "18/8 stainless steel wires with solder free of nickel",
        "steel without nickel plating",
        "nickel-free coated steel",
        "wire, nickel-free solder",
        "nickel-free clasps and stainless steel bow",
        "nickel-free clasps on a stainless steel bow",
        "stainless steel bow, nickel-free in the clasps",
        "nickel-free clasps, Remanium bow",
        "stainless steel, not nickel-free",
        "almost nickel-free steel"
      })
  void aCoatedOrUnknownAlloyIsAWarning(String alloy) {
    assertThat(found("polyamide", alloy))
        .extracting(Finding::severity, finding -> finding.pointer().text())
        .containsExactly(tuple(Severity.WARNING, "/appliances/0/alloy"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "titanium",
        "beta titanium",
        "gold",
        "polymer clasps",
        "nickel-free steel",
        "steel without nickel",
        "stainless steel, nickel free",
        "nickel-free stainless steel",
        "nickel-free alloy",
        "nickel-free, stainless steel",
        "stainless steel (nickel-free)",
        "stainless steel wires, all nickel-free",
        "stainless steel, 0.7 mm, nickel-free",
        "steel with no nickel",
        "titanium, nickel-free coating",
        "0.7 mm nickel-free steel, spring hard",
        "Menzanium nickel-free wire",
        "nickel-free steel, clasps and bow"
      })
  void anAlloyKnownToBeFreeOfItIsNotFound(String alloy) {
    assertThat(found("polyamide", alloy)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "acrylic and latex",
        "Nickel and chrome",
        "nickel, penicillin",
        "nickel (anaphylaxis to bee stings)",
        "acrylic adhesive tape"
      })
  void aPartThatNoRuleComparesIsToBeRead(String allergy) {
    assertThat(found(allergy, "polyamide", "titanium"))
        .extracting(Finding::severity, finding -> finding.pointer().text())
        .containsExactly(tuple(Severity.WARNING, "/patient/allergies/0"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "Nickel sulphate",
        "nickel allergy, severe",
        "contact allergy to nickel and acrylic",
        "methyl methacrylate",
        "MMA",
        "acrylic resin (denture base)",
        "Nickel(II) sulfate 5 %, patch test positive 2019"
      })
  void anAllergyThatIsComparedWholeIsNot(String allergy) {
    assertThat(found(allergy, "polyamide", "titanium")).isEmpty();
  }

  private static List<Finding> found(String material, String alloy) {
    return found("acrylic\", \"nickel", material, alloy);
  }

  private static List<Finding> found(String allergies, String material, String alloy) {
    Treatment treatment =
        SampleTreatments.changed(
            """
            {"/patient/allergies": ["%s"],
             "/appliances/0/material": "%s", "/appliances/0/alloy": "%s"}"""
                .formatted(allergies, material, alloy));
    return new Examiner()
        .examine(treatment, treatment.asOf()).findings().stream()
            .map(Judged::finding)
            .filter(finding -> finding.code().equals("appliance-allergy"))
            .toList();
  }
}
