package org.intercusp.fhir.version;

import org.hl7.fhir.r4.model.Task;

/**
 * Repair: R5 allows {@code Task.restriction} (by when) only where the code says that the focus is
 * to be fulfilled (tsk-1). The coding that says so is added, under an element id of its own, and
 * taken off again on the way back.
 */
final class TaskRestriction implements Repair<Task, org.hl7.fhir.r5.model.Task> {

  private static final String SYSTEM = "http://hl7.org/fhir/CodeSystem/task-code";
  private static final String FULFILL = "fulfill";
  private static final String ADDED = "for-restriction";

  @Override
  public Class<Task> four() {
    return Task.class;
  }

  @Override
  public Class<org.hl7.fhir.r5.model.Task> five() {
    return org.hl7.fhir.r5.model.Task.class;
  }

  @Override
  public void up(Task from, org.hl7.fhir.r5.model.Task made) {
    if (from.hasRestriction() && from.hasFocus() && !made.getCode().hasCoding(SYSTEM, FULFILL)) {
      var coding = made.getCode().addCoding();
      coding.setSystem(SYSTEM).setCode(FULFILL).setDisplay("Fulfill the focal request");
      coding.setId(ADDED);
    }
  }

  @Override
  public void down(org.hl7.fhir.r5.model.Task from, Task made) {
    made.getCode().getCoding().removeIf(coding -> ADDED.equals(coding.getId()));
  }
}
