package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.treatment.Outcome;

/** One outcome scoring as Observation whose members are its findings, scores and answers. */
final class OutcomeMapper {

  private static final Concept CODE = Codes.measurement("outcome-scoring");
  private static final Kind<Outcome.Phase> PHASE = Kind.coded(LocalSystem.OUTCOME_PHASE);
  private static final Kind<Outcome.Medium> SOURCE = Kind.coded(LocalSystem.OUTCOME_MEDIUM);

  private final OutcomeFindingsMapper findings = new OutcomeFindingsMapper();
  private final ScoresMapper scores = new ScoresMapper();
  private final ReportedMapper reported = new ReportedMapper();

  void toFhir(Outcome outcome, Writing writing) {
    Observation resource = observation(CODE, outcome, writing);
    resource.setValue(PHASE.out().apply(outcome.phase(), writing.canonicals()));
    Repeats.method(resource, SOURCE, outcome.source(), writing);
    Repeats.repeatOf(resource, Role.OUTCOME, outcome.repeatOf(), writing);
    writing.add(resource, Role.OUTCOME, outcome.id());
    findings.toFhir(outcome, resource, writing);
    scores.toFhir(outcome, resource, writing);
    reported.toFhir(outcome, resource, writing);
  }

  /** An Observation of a scoring, by its examiner on its day. */
  static Observation observation(Concept code, Outcome outcome, Writing writing) {
    Observation resource = writing.observation(code);
    resource.setEffective(Writing.day(outcome.date()));
    resource.getPerformer().clear();
    resource.addPerformer(Names.logical(outcome.examiner()));
    return resource;
  }

  void fromFhir(Draft root, Reading reading) {
    for (Observation resource : reading.observations(CODE)) {
      String path = reading.path(resource);
      Draft draft = root.element("outcomes", path);
      draft.put("id", reading.id(resource), path + ".identifier");
      Dated.put(draft, "date", resource, path);
      Type phase = resource.hasValue() ? resource.getValue() : null;
      draft.put("phase", reading.value(PHASE, phase, path + ".value"), path + ".value");
      Repeats.source(resource, SOURCE, draft, reading);
      examiner(resource, draft, path);
      Repeats.repeatOf(resource, draft, path, reading);
      for (Reference reference : resource.getHasMember()) {
        Observation member = reading.resolve(reference, Observation.class);
        if (member != null) {
          findings.fromFhir(member, draft, reading);
          scores.fromFhir(member, draft, reading);
          reported.fromFhir(member, draft, reading);
        }
      }
    }
  }

  private static void examiner(Observation resource, Draft outcome, String path) {
    Reference performer = resource.getPerformerFirstRep();
    String at = path + ".performer[0].identifier";
    if (performer.hasIdentifier()) {
      Draft examiner = outcome.object("examiner", at);
      examiner.put("system", performer.getIdentifier().getSystem(), at + ".system");
      examiner.put("value", performer.getIdentifier().getValue(), at + ".value");
    }
  }
}
