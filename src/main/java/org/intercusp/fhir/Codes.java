package org.intercusp.fhir;

import static org.intercusp.fhir.LocalSystem.ACCEPTANCE;
import static org.intercusp.fhir.LocalSystem.ALLERGEN;
import static org.intercusp.fhir.LocalSystem.CONTACT;
import static org.intercusp.fhir.LocalSystem.MEASUREMENT;
import static org.intercusp.fhir.LocalSystem.METHOD;
import static org.intercusp.fhir.LocalSystem.PLAN_KIND;
import static org.intercusp.fhir.LocalSystem.PROCEDURE;
import static org.intercusp.fhir.LocalSystem.TEAM_ROLE;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;

/**
 * The codes our resources carry. LOINC and SNOMED CT codes are those whose meaning was checked;
 * every other meaning has a code of ours, defined in {@code profiles}.
 */
final class Codes {

  static final String LOINC = "http://loinc.org";
  static final String SNOMED = "http://snomed.info/sct";
  static final String HL7 = "http://terminology.hl7.org/CodeSystem/";
  static final String UCUM = "http://unitsofmeasure.org";
  static final String US_DENTAL = "http://hl7.org/fhir/us/dental-data-exchange/";

  private static final List<Concept> OURS = new ArrayList<>();

  // LOINC and SNOMED CT
  static final Concept OVERJET = Concept.of(LOINC, "32916-9", "Overjet");
  static final Concept OVERBITE = Concept.of(LOINC, "32917-7", "Overbite");
  static final Concept OVERBITE_COVER =
      Concept.of(LOINC, "32955-7", "Overbite as share of the lower incisor crown");
  static final Concept OCCLUSAL_INDEX = Concept.of(LOINC, "90862-4", "Occlusal index");
  static final Concept CONSULT_NOTE = Concept.of(LOINC, "34756-7", "Dentistry Consult note");
  static final Concept MALOCCLUSION = Concept.of(SNOMED, "47944004", "Malocclusion");
  static final Concept JOINT_DISEASE = Concept.of(SNOMED, "41888000", "Jaw joint disorder");
  static final Concept ULCER = Concept.of(SNOMED, "50882004", "Traumatic oral ulcer");
  static final Concept RESORPTION = Concept.of(SNOMED, "41918006", "External root resorption");
  static final Concept UPPER_ARCH = Concept.of(SNOMED, "39481002", "Upper dental arch");
  static final Concept LOWER_ARCH = Concept.of(SNOMED, "88176008", "Lower dental arch");

  // Observations of ours
  static final Concept OVERJET_RETRUDED = measurement("overjet-retruded");
  static final Concept MOLAR_RELATION = measurement("molar-relation");
  static final Concept MOLAR_RELATION_RIGHT = measurement("molar-relation-right");
  static final Concept MOLAR_RELATION_LEFT = measurement("molar-relation-left");
  static final Concept POSTERIOR_OPEN_BITE = measurement("posterior-open-bite");
  static final Concept POSTERIOR_OPEN_BITE_RIGHT = measurement("posterior-open-bite-right");
  static final Concept POSTERIOR_OPEN_BITE_LEFT = measurement("posterior-open-bite-left");
  static final Concept CROWDING = measurement("crowding");
  static final Concept CROWDING_UPPER = measurement("crowding-upper");
  static final Concept CROWDING_LOWER = measurement("crowding-lower");
  static final Concept LIPS = measurement("lips");
  static final Concept GROWTH_STAGE = measurement("growth-stage");
  static final Concept JOINT_SIGNS = measurement("joint-signs");
  static final Concept JOINT_SIGN = measurement("joint-sign");
  static final Concept HYGIENE = measurement("hygiene");
  static final Concept ACTIVE_CARIES = measurement("active-caries");
  static final Concept TEETH_PRESENT = measurement("teeth-present");
  static final Concept TOOTH_PRESENT = measurement("tooth-present");
  static final Concept WEAR = measurement("wear");
  static final Concept TENDERNESS = measurement("retraction-tenderness");
  static final Concept MAXIMUM_OPENING = measurement("maximum-opening");
  static final Concept SCREW_TURNS = measurement("screw-turns");
  static final Concept NOTE = measurement("review-note");
  static final Concept TRIM_AMOUNT = measurement("trim-amount");
  static final Concept REACTIVATION_AMOUNT = measurement("reactivation-amount");
  static final Concept TREATMENT_STATUS = measurement("treatment-status");
  static final Concept COMPLETION_REASON = measurement("completion-reason");
  static final Concept LAST_ATTENDED = measurement("last-attended");
  static final Concept ACCEPTED_VALUES = measurement("accepted-values");

  // What is done, planned and asked for
  static final Concept FITTING = ours(PROCEDURE, "fitting");
  static final Concept TRIM = ours(PROCEDURE, "trim");
  static final Concept REPAIR = ours(PROCEDURE, "repair");
  static final Concept REACTIVATION = ours(PROCEDURE, "reactivation");
  static final Concept REVIEW_RHYTHM = ours(PROCEDURE, "review-rhythm");
  static final Concept WEAR_PRESCRIBED = ours(PROCEDURE, "wear-prescribed");
  static final Concept TRIMMING = ours(PROCEDURE, "trimming");
  static final Concept MAKE_APPLIANCE = ours(PROCEDURE, "make-appliance");
  static final Concept TREATMENT = ours(PLAN_KIND, "treatment");

  // Who
  static final Concept CLINIC = ours(TEAM_ROLE, "clinic");
  static final Concept CLINICIAN = ours(TEAM_ROLE, "clinician");
  static final Concept REFERRER = ours(TEAM_ROLE, "referrer");
  static final Concept LABORATORY = ours(TEAM_ROLE, "laboratory");

  // Answers
  static final Concept ACRYLIC = ours(ALLERGEN, "acrylic");
  static final Concept NICKEL = ours(ALLERGEN, "nickel");
  static final Concept NONE_KNOWN = ours(ALLERGEN, "none-known");
  static final Concept IMPACTED = ours(CONTACT, "impacted");
  static final Concept ACCEPTED = ours(ACCEPTANCE, "accepted");

  // How
  static final Concept BY_REPORT = ours(METHOD, "report");
  static final Concept BY_SENSOR = ours(METHOD, "sensor");
  static final Concept BY_PAR = ours(METHOD, "par", "PAR");
  static final Concept BY_DHC = ours(METHOD, "dhc", "Dental health component");
  static final Concept BY_ICON = ours(METHOD, "icon", "ICON");

  private Codes() {}

  /** A measurement of ours, worded as its code. */
  static Concept measurement(String code) {
    return ours(MEASUREMENT, code);
  }

  /** A measurement of ours with its words. */
  static Concept measurement(String code, String display) {
    return ours(MEASUREMENT, code, display);
  }

  /** A code of ours, worded as it is written. */
  static Concept ours(LocalSystem system, String code) {
    return remembered(Concept.local(system, code));
  }

  /** A code of ours with its words. */
  static Concept ours(LocalSystem system, String code, String display) {
    return remembered(Concept.local(system, code, display));
  }

  /** Every code of ours named by a class that has been loaded. */
  static List<Concept> named() {
    return Collections.unmodifiableList(OURS);
  }

  private static Concept remembered(Concept concept) {
    OURS.add(concept);
    return concept;
  }

  static Coding hl7(String system, String code, String display) {
    return new Coding(HL7 + system, code, display);
  }

  static CodeableConcept hl7Concept(String system, String code, String display) {
    return new CodeableConcept(hl7(system, code, display));
  }
}
