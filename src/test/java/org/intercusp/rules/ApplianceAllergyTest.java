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
        "PMMA"
      })
  void anAcrylicByAnyWordIsAnError(String material) {
    assertThat(found(material, "nickel-free steel"))
        .extracting(Finding::severity, finding -> finding.pointer().text())
        .containsExactly(tuple(Severity.ERROR, "/appliances/0/material"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {"Plastodent", "clear thermoformed sheet", "light-cured resin, monomer-free"})
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
        "PET-G sheet"
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
        "wire"
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
        "stainless steel, nickel free"
      })
  void anAlloyKnownToBeFreeOfItIsNotFound(String alloy) {
    assertThat(found("polyamide", alloy)).isEmpty();
  }

  private static List<Finding> found(String material, String alloy) {
    Treatment treatment =
        SampleTreatments.changed(
            """
            {"/patient/allergies": ["acrylic", "nickel"],
             "/appliances/0/material": "%s", "/appliances/0/alloy": "%s"}"""
                .formatted(material, alloy));
    return new Examiner()
        .examine(treatment, treatment.asOf()).findings().stream()
            .map(Judged::finding)
            .filter(finding -> finding.code().equals("appliance-allergy"))
            .toList();
  }
}
