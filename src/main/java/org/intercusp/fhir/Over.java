package org.intercusp.fhir;

import org.hl7.fhir.r4.model.CarePlan.CarePlanStatus;
import org.hl7.fhir.r4.model.Goal.GoalLifecycleStatus;
import org.hl7.fhir.r4.model.ServiceRequest.ServiceRequestStatus;
import org.intercusp.analysis.stage.Behind;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/**
 * What of a treatment is under way, done or given up, in the words of each type. What is over is
 * never active: whoever asks a records server for active orders would meet it.
 */
enum Over {
  NOT(CarePlanStatus.ACTIVE, ServiceRequestStatus.ACTIVE, GoalLifecycleStatus.ACTIVE),
  DONE(CarePlanStatus.COMPLETED, ServiceRequestStatus.COMPLETED, GoalLifecycleStatus.COMPLETED),
  GIVEN_UP(CarePlanStatus.REVOKED, ServiceRequestStatus.REVOKED, GoalLifecycleStatus.CANCELLED);

  private final CarePlanStatus plan;
  private final ServiceRequestStatus order;
  private final GoalLifecycleStatus goal;

  Over(CarePlanStatus plan, ServiceRequestStatus order, GoalLifecycleStatus goal) {
    this.plan = plan;
    this.order = order;
    this.goal = goal;
  }

  CarePlanStatus plan() {
    return plan;
  }

  ServiceRequestStatus order() {
    return order;
  }

  GoalLifecycleStatus goal() {
    return goal;
  }

  static Over of(Treatment treatment) {
    Completion completion = treatment.completion();
    if (completion == null || !treatment.hasEnded()) {
      return NOT;
    }
    return completion.status() == Completion.Status.COMPLETED ? DONE : GIVEN_UP;
  }

  /** A stage that was left is done; one that a treatment ended before will not come. */
  static Over of(Stage stage, Treatment treatment) {
    if (Behind.stages(treatment).contains(stage)) {
      return DONE;
    }
    Over whole = of(treatment);
    return whole == DONE && Behind.ahead(treatment).contains(stage) ? GIVEN_UP : whole;
  }
}
