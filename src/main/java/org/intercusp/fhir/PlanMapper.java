package org.intercusp.fhir;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.CarePlan.CarePlanIntent;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.treatment.Treatment;

/**
 * The whole treatment as CarePlan. Its supporting information lists the elements in the file's
 * order, since neither a Bundle nor a search keeps one.
 */
final class PlanMapper {

  CarePlan toFhir(Writing writing) {
    Treatment treatment = writing.treatment();
    CarePlan plan = new CarePlan();
    plan.addInstantiatesCanonical(writing.canonicals().planTemplate());
    plan.setStatus(Over.of(treatment).plan());
    plan.setIntent(CarePlanIntent.PLAN);
    plan.addCategory(Codes.TREATMENT.concept(writing.canonicals()));
    plan.setTitle("Treatment with a functional appliance");
    plan.setSubject(Names.named("Patient", treatment.patient().identifier()));
    plan.getPeriod().setStartElement(Writing.day(treatment.diagnosis().assessedOn()));
    LocalDate asOf = treatment.asOf();
    if (asOf != null) {
      plan.setCreatedElement(Writing.day(asOf));
    }
    plan.setAuthor(writing.clinician());
    plan.addCareTeam(writing.to("CareTeam", Role.TEAM));
    plan.addAddresses(writing.diagnosis());
    for (Reference part : Parts.inOrder(writing)) {
      plan.addSupportingInfo(part);
    }
    if (!treatment.reviews().isEmpty()) {
      // Neither a reference nor a detail: R4 takes no Encounter there, only as outcome.
      CarePlan.CarePlanActivityComponent visits = plan.addActivity();
      treatment
          .reviews()
          .forEach(r -> visits.addOutcomeReference(writing.to("Encounter", Role.REVIEW, r.id())));
    }
    return writing.add(plan, Role.PLAN);
  }

  void fromFhir(CarePlan plan, Draft root, Reading reading) {
    String path = reading.path(plan);
    root.put("id", reading.id(plan), path + ".identifier");
    if (plan.hasCreated()) {
      root.put("asOf", Kind.day(plan.getCreatedElement().getValueAsString()), path + ".created");
    }
  }

  /** The elements a plan lists, first those that support it, then its visits. */
  static List<Reference> parts(CarePlan plan) {
    List<Reference> parts = new ArrayList<>(plan.getSupportingInfo());
    plan.getActivity().forEach(activity -> parts.addAll(activity.getOutcomeReference()));
    return parts;
  }
}
