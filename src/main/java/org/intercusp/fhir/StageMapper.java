package org.intercusp.fhir;

import java.time.LocalDate;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.CarePlan.CarePlanIntent;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.DeviceRequest;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.ServiceRequest;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.StageKind;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** A stage as CarePlan that is part of the treatment's, with its prescriptions and goals. */
final class StageMapper {

  private static final Kind<StageKind> KIND = Kind.coded(LocalSystem.STAGE_KIND);

  private final StagePrescriptionMapper prescriptions = new StagePrescriptionMapper();
  private final GoalMapper goals = new GoalMapper();

  void toFhir(Stage stage, Writing writing) {
    CarePlan plan = new CarePlan();
    plan.addPartOf(writing.plan());
    plan.setStatus(Over.of(stage, writing.treatment()).plan());
    plan.setIntent(CarePlanIntent.PLAN);
    plan.addCategory((CodeableConcept) KIND.out().apply(stage.kind(), writing.canonicals()));
    plan.setSubject(writing.patient());
    LocalDate start = stage.startsOn();
    if (start != null) {
      plan.getPeriod().setStartElement(Writing.day(start));
    }
    plan.addAddresses(writing.diagnosis());
    writing.add(plan, Role.STAGE, stage.id());
    if (stage.applianceId() != null) {
      plan.addActivity()
          .setReference(writing.to("DeviceRequest", Role.PRESCRIPTION, stage.applianceId()));
    }
    for (Reference prescription : prescriptions.toFhir(stage, writing)) {
      plan.addActivity().setReference(prescription);
    }
    for (int ordinal = 1; ordinal <= stage.goals().size(); ordinal++) {
      plan.addGoal(goals.toFhir(stage, ordinal, writing));
    }
  }

  void fromFhir(CarePlan whole, Draft root, Reading reading) {
    root.array("stages");
    for (CarePlan plan : reading.all(CarePlan.class)) {
      boolean part = plan.getPartOf().stream().anyMatch(p -> reading.leadsTo(p, whole));
      if (part) {
        stage(plan, root.element("stages", reading.path(plan)), reading);
      }
    }
  }

  private void stage(CarePlan plan, Draft draft, Reading reading) {
    String path = reading.path(plan);
    draft.put("id", reading.id(plan), path + ".identifier");
    draft.put("kind", kind(plan, reading), path + ".category");
    if (plan.getPeriod().hasStart()) {
      String start = plan.getPeriod().getStartElement().getValueAsString();
      draft.put("startsOn", Kind.day(start), path + ".period.start");
    }
    for (int i = 0; i < plan.getActivity().size(); i++) {
      Reference reference = plan.getActivity().get(i).getReference();
      String at = path + ".activity[" + i + "].reference";
      if (reading.resolve(reference) instanceof DeviceRequest order) {
        draft.put("applianceId", reading.id(order), at);
      } else if (reading.resolve(reference) instanceof ServiceRequest prescription) {
        prescriptions.fromFhir(prescription, draft, reading);
      }
    }
    goals.fromFhir(plan, draft, reading);
  }

  private static @Nullable JsonNode kind(CarePlan plan, Reading reading) {
    for (CodeableConcept category : plan.getCategory()) {
      JsonNode kind = KIND.in().apply(category, reading.canonicals());
      if (kind != null) {
        return kind;
      }
    }
    return null;
  }
}
