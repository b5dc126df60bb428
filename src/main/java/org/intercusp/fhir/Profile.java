package org.intercusp.fhir;

/** Every profile a mapped resource claims: its name, the R4 resource type and what it means. */
public enum Profile {
  TREATMENT_BUNDLE("treatment-bundle", "Bundle", "a whole treatment as transaction or collection"),
  TREATMENT_DOCUMENT("treatment-document", "Bundle", "a whole treatment as document"),
  OUTCOME_BUNDLE("outcome-bundle", "Bundle", "what a clinic submits to a registry"),
  REGISTRY_PATIENT("registry-patient", "Patient", "identifier, birth date and sex, never a name"),
  REGISTRY_CONSENT("registry-consent", "Consent", "consent to the registry, or its withdrawal"),
  REGISTRY_COURSE("registry-course", "Observation", "one course of treatment in components"),
  REGISTRY_ASSESSMENT("registry-assessment", "Observation", "one phase's measures and scores"),
  SUMMARY("summary", "Composition", "sections and narrative of the document"),
  PATIENT("patient", "Patient", "the patient: identifier, names in order, birth date, sex"),
  PRACTITIONER("practitioner", "Practitioner", "clinician or referrer: identifier and names"),
  PRACTITIONER_ROLE(
      "practitioner-role", "PractitionerRole", "clinician or referrer at an organisation"),
  ORGANIZATION("organization", "Organization", "clinic or laboratory: identifier, name, contact"),
  CARE_TEAM("care-team", "CareTeam", "who is clinic, clinician, referrer and laboratory"),
  ALLERGY("allergy", "AllergyIntolerance", "an allergy that matters for plates, or none known"),
  CONSENT("consent", "Consent", "to whom the record may go; provision.code is the scope"),
  MALOCCLUSION("malocclusion", "Condition", "the diagnosis: malocclusion by incisor class"),
  OVERJET("overjet", "Observation", "LOINC 32916-9 in mm; also a US dental finding"),
  OVERBITE("overbite", "Observation", "LOINC 32917-7 in mm; also a US dental finding"),
  OCCLUSAL_MEASUREMENT(
      "occlusal-measurement", "Observation", "a length, count or share, or one each side or arch"),
  CLINICAL_SIGN("clinical-sign", "Observation", "a sign judged: coded, yes or no, or a list"),
  TEETH_PRESENT("teeth-present", "Observation", "the teeth present, one component each"),
  CONSTRUCTION_BITE("construction-bite", "Observation", "readings and clearances of a bite"),
  APPLIANCE_PRESCRIPTION(
      "appliance-prescription", "DeviceRequest", "the order for an appliance with its parameters"),
  LABORATORY_TASK("laboratory-task", "Task", "what the laboratory is asked to make, by when"),
  APPLIANCE("appliance", "Device", "the custom-made appliance, its parts as properties; no UDI"),
  APPLIANCE_STATEMENT(
      "appliance-statement", "DocumentReference", "the statement of a custom-made device"),
  APPLIANCE_FITTING("appliance-fitting", "Procedure", "the fitting; focalDevice the appliance"),
  APPLIANCE_USE("appliance-use", "DeviceUseStatement", "the appliance in use from its fitting on"),
  TREATMENT_PLAN(
      "treatment-plan", "CarePlan", "the treatment; supportingInfo keeps the file's order"),
  STAGE_PLAN("stage-plan", "CarePlan", "a stage, partOf the treatment plan"),
  STAGE_PRESCRIPTION(
      "stage-prescription", "ServiceRequest", "review rhythm and length, wear, or trimming"),
  STAGE_GOAL("stage-goal", "Goal", "an exit goal; detailRange.high is at most, low at least"),
  REVIEW("review", "Encounter", "a review visit; basedOn the stage's review rhythm"),
  NEXT_REVIEW("next-review", "Appointment", "the next review proposed at one"),
  WEAR("wear", "Observation", "hours a day over a period; method report or sensor"),
  REVIEW_PROCEDURE("review-procedure", "Procedure", "trim, repair or re-activation at a review"),
  HARM("harm", "Condition", "an adverse event as a condition of the patient"),
  ADVERSE_EVENT(
      "adverse-event", "AdverseEvent", "harm that is serious or ascribed to an appliance"),
  CEPHALOMETRIC_TRACING("cephalometric-tracing", "Observation", "landmarks of a lateral film"),
  STUDY_MODEL("study-model", "Observation", "measurements on study models"),
  OUTCOME_SCORING("outcome-scoring", "Observation", "one scoring; hasMember its parts"),
  OCCLUSAL_FINDINGS("occlusal-findings", "Observation", "findings the indices are computed from"),
  INDEX_SCORE("index-score", "Observation", "LOINC 90862-4 with method PAR, DHC or ICON"),
  REPORTED_OUTCOME("reported-outcome", "Observation", "total of a patient's questionnaire"),
  TREATMENT_STATUS("treatment-status", "Observation", "how the treatment stands or ended"),
  FINDING("finding", "DetectedIssue", "a rule finding; mitigation when accepted with a reason");

  private final String kebab;
  private final String type;
  private final String meaning;

  Profile(String kebab, String type, String meaning) {
    this.kebab = kebab;
    this.type = type;
    this.meaning = meaning;
  }

  /** Last part of the canonical. */
  public String kebab() {
    return kebab;
  }

  /** The R4 resource type it constrains. */
  public String type() {
    return type;
  }

  /** What a resource of it says. */
  public String meaning() {
    return meaning;
  }
}
