package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.CarePlan;
import org.hl7.fhir.r4.model.Patient;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.Treatment;

/** All mappers, in the order the resources stand in a Bundle. */
final class Resources {

  private final PatientMapper patients = new PatientMapper();
  private final AllergyMapper allergies = new AllergyMapper();
  private final ConsentMapper consents = new ConsentMapper();
  private final TeamMapper teams = new TeamMapper();
  private final DiagnosisMapper diagnoses = new DiagnosisMapper();
  private final BiteMapper bites = new BiteMapper();
  private final ApplianceMapper appliances = new ApplianceMapper();
  private final StageMapper stages = new StageMapper();
  private final ReviewMapper reviews = new ReviewMapper();
  private final FilmMapper films = new FilmMapper();
  private final ModelMapper models = new ModelMapper();
  private final OutcomeMapper outcomes = new OutcomeMapper();
  private final CompletionMapper completions = new CompletionMapper();
  private final IssueMapper issues = new IssueMapper();
  private final PlanMapper plans = new PlanMapper();

  void toFhir(Writing writing, List<Finding> findings) {
    Treatment treatment = writing.treatment();
    patients.toFhir(treatment.patient(), writing);
    teams.toFhir(writing);
    allergies.toFhir(treatment.patient(), writing);
    consents.toFhir(treatment.patient().consent(), writing);
    CarePlan plan = plans.toFhir(writing);
    diagnoses.toFhir(writing);
    treatment.bites().forEach(bite -> bites.toFhir(bite, writing));
    treatment.appliances().forEach(appliance -> appliances.toFhir(appliance, writing));
    treatment.stages().forEach(stage -> stages.toFhir(stage, writing));
    treatment.reviews().forEach(review -> reviews.toFhir(review, writing));
    treatment.films().forEach(film -> films.toFhir(film, writing));
    treatment.models().forEach(model -> models.toFhir(model, writing));
    treatment.outcomes().forEach(outcome -> outcomes.toFhir(outcome, writing));
    completions.toFhir(treatment.completion(), writing);
    issues.toFhir(findings, writing).forEach(plan::addSupportingInfo);
  }

  void fromFhir(CarePlan plan, Draft root, Reading reading) {
    root.put("format", Treatment.FORMAT, reading.path(plan));
    plans.fromFhir(plan, root, reading);
    teams.fromFhir(root, reading);
    if (reading.resolve(plan.getSubject()) instanceof Patient patient) {
      Draft draft = root.object("patient", reading.path(patient));
      patients.fromFhir(
          patient, plan.getSubject(), reading.path(plan) + ".subject", draft, reading);
      allergies.fromFhir(draft, reading);
      consents.fromFhir(draft, reading);
    }
    diagnoses.fromFhir(root, reading);
    bites.fromFhir(root, reading);
    appliances.fromFhir(root, reading);
    stages.fromFhir(plan, root, reading);
    reviews.fromFhir(root, reading);
    films.fromFhir(root, reading);
    models.fromFhir(root, reading);
    outcomes.fromFhir(root, reading);
    completions.fromFhir(root, reading);
    issues.fromFhir(root, reading);
  }
}
