package org.intercusp.fhir;

/**
 * The part a resource plays in a treatment. Together with the ids of the elements it speaks of it
 * makes the resource's business identifier, so its name never changes.
 */
public enum Role {
  PLAN("plan", Profile.TREATMENT_PLAN),
  TEAM("team", Profile.CARE_TEAM),
  CLINICIAN("clinician", Profile.PRACTITIONER_ROLE),
  REFERRER("referrer", Profile.PRACTITIONER_ROLE),
  ALLERGY("allergy", Profile.ALLERGY),
  CONSENT("consent", Profile.CONSENT),
  DIAGNOSIS("diagnosis", Profile.MALOCCLUSION),
  OVERJET("overjet", Profile.OVERJET),
  OVERJET_RETRUDED("overjet-retruded", Profile.OCCLUSAL_MEASUREMENT),
  OVERBITE("overbite", Profile.OVERBITE),
  OVERBITE_COVER("overbite-cover", Profile.OCCLUSAL_MEASUREMENT),
  MOLAR_RELATION("molar-relation", Profile.OCCLUSAL_MEASUREMENT),
  POSTERIOR_OPEN_BITE("posterior-open-bite", Profile.OCCLUSAL_MEASUREMENT),
  CROWDING("crowding", Profile.OCCLUSAL_MEASUREMENT),
  LIPS("lips", Profile.CLINICAL_SIGN),
  GROWTH_STAGE("growth-stage", Profile.CLINICAL_SIGN),
  JOINT_SIGNS("joint-signs", Profile.CLINICAL_SIGN),
  HYGIENE("hygiene", Profile.CLINICAL_SIGN),
  ACTIVE_CARIES("active-caries", Profile.CLINICAL_SIGN),
  TEETH_PRESENT("teeth-present", Profile.TEETH_PRESENT),
  BITE("bite", Profile.CONSTRUCTION_BITE),
  PRESCRIPTION("prescription", Profile.APPLIANCE_PRESCRIPTION),
  APPLIANCE("appliance", Profile.APPLIANCE),
  LABORATORY_TASK("laboratory-task", Profile.LABORATORY_TASK),
  STATEMENT("statement", Profile.APPLIANCE_STATEMENT),
  FITTING("fitting", Profile.APPLIANCE_FITTING),
  USE("use", Profile.APPLIANCE_USE),
  STAGE("stage", Profile.STAGE_PLAN),
  REVIEW_RHYTHM("review-rhythm", Profile.STAGE_PRESCRIPTION),
  WEAR_PRESCRIBED("wear-prescribed", Profile.STAGE_PRESCRIPTION),
  TRIMMING("trimming", Profile.STAGE_PRESCRIPTION),
  GOAL("goal", Profile.STAGE_GOAL),
  REVIEW("review", Profile.REVIEW),
  NEXT_REVIEW("next-review", Profile.NEXT_REVIEW),
  WEAR_REPORTED("wear-reported", Profile.WEAR),
  WEAR_MEASURED("wear-measured", Profile.WEAR),
  TENDERNESS("retraction-tenderness", Profile.CLINICAL_SIGN),
  MAXIMUM_OPENING("maximum-opening", Profile.OCCLUSAL_MEASUREMENT),
  SCREW_TURNS("screw-turns", Profile.OCCLUSAL_MEASUREMENT),
  NOTE("note", Profile.CLINICAL_SIGN),
  TRIM("trim", Profile.REVIEW_PROCEDURE),
  TRIM_AMOUNT("trim-amount", Profile.OCCLUSAL_MEASUREMENT),
  REPAIR("repair", Profile.REVIEW_PROCEDURE),
  REACTIVATION("reactivation", Profile.REVIEW_PROCEDURE),
  REACTIVATION_AMOUNT("reactivation-amount", Profile.OCCLUSAL_MEASUREMENT),
  HARM("harm", Profile.HARM),
  ADVERSE_EVENT("adverse-event", Profile.ADVERSE_EVENT),
  FILM("film", Profile.CEPHALOMETRIC_TRACING),
  MODEL("model", Profile.STUDY_MODEL),
  OUTCOME("outcome", Profile.OUTCOME_SCORING),
  OUTCOME_FINDINGS("outcome-findings", Profile.OCCLUSAL_FINDINGS),
  PAR("par", Profile.INDEX_SCORE),
  DHC("dhc", Profile.INDEX_SCORE),
  ICON("icon", Profile.INDEX_SCORE),
  REPORTED("reported", Profile.REPORTED_OUTCOME),
  COMPLETION("completion", Profile.TREATMENT_STATUS),
  FINDING("finding", Profile.FINDING),
  SUMMARY("summary", Profile.SUMMARY);

  private final String kebab;
  private final Profile profile;

  Role(String kebab, Profile profile) {
    this.kebab = kebab;
    this.profile = profile;
  }

  /** As it stands in the business identifier. */
  public String kebab() {
    return kebab;
  }

  /** The profile resources of this role claim. */
  public Profile profile() {
    return profile;
  }
}
