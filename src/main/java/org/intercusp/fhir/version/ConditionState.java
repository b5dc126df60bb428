package org.intercusp.fhir.version;

import org.hl7.fhir.r4.model.Condition;

/**
 * Repair: {@code Condition.clinicalStatus}. R4 forbids it of what was entered in error (con-5); R5
 * demands it of every Condition. The coding unknown is added, under an element id of its own, and
 * taken off again on the way back.
 */
final class ConditionState implements Repair<Condition, org.hl7.fhir.r5.model.Condition> {

  private static final String SYSTEM = "http://terminology.hl7.org/CodeSystem/condition-clinical";
  private static final String ADDED = "not-said-in-r4";

  @Override
  public Class<Condition> four() {
    return Condition.class;
  }

  @Override
  public Class<org.hl7.fhir.r5.model.Condition> five() {
    return org.hl7.fhir.r5.model.Condition.class;
  }

  @Override
  public void up(Condition from, org.hl7.fhir.r5.model.Condition made) {
    if (!from.hasClinicalStatus()) {
      made.getClinicalStatus().addCoding().setSystem(SYSTEM).setCode("unknown").setId(ADDED);
    }
  }

  @Override
  public void down(org.hl7.fhir.r5.model.Condition from, Condition made) {
    made.getClinicalStatus().getCoding().removeIf(coding -> ADDED.equals(coding.getId()));
  }
}
