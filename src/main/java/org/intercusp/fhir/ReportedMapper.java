package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationReferenceRangeComponent;
import org.hl7.fhir.r4.model.Quantity;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Outcome;
import org.intercusp.treatment.Outcome.ReportedOutcome;

/** The total of a questionnaire; its range says from where to where the instrument counts. */
final class ReportedMapper {

  private static final Concept CODE = Codes.measurement("reported-outcome");
  private static final Kind<Decimal> SCORE = Kind.decimal(Unit.SCORE);

  private static final Panel<ReportedOutcome> PANEL =
      new Panel<ReportedOutcome>(Role.REPORTED, CODE)
          .value("total", SCORE, ReportedOutcome::total)
          .part(
              "instrument",
              Codes.measurement("instrument"),
              Kind.text(),
              ReportedOutcome::instrument)
          .part(
              "version",
              Codes.measurement("instrument-version"),
              Kind.text(),
              ReportedOutcome::version)
          .part(
              "answeredBy",
              Codes.measurement("answered-by"),
              Kind.coded(LocalSystem.ANSWERED_BY),
              ReportedOutcome::answeredBy);

  void toFhir(Outcome outcome, Observation scoring, Writing writing) {
    for (int i = 0; i < outcome.reportedOutcomes().size(); i++) {
      ReportedOutcome reported = outcome.reportedOutcomes().get(i);
      String ordinal = Integer.toString(i + 1);
      Observation resource = OutcomeMapper.observation(CODE, outcome, writing);
      PANEL.write(reported, resource, writing.canonicals());
      resource
          .addReferenceRange()
          .setLow((Quantity) SCORE.out().apply(reported.min(), writing.canonicals()))
          .setHigh((Quantity) SCORE.out().apply(reported.max(), writing.canonicals()));
      writing.add(resource, Role.REPORTED, outcome.id(), ordinal);
      scoring.addHasMember(writing.to("Observation", Role.REPORTED, outcome.id(), ordinal));
    }
  }

  void fromFhir(Observation member, Draft outcome, Reading reading) {
    if (!reading.is(CODE, member.getCode())) {
      return;
    }
    String path = reading.path(member);
    Draft draft = outcome.element("reportedOutcomes", path);
    PANEL.read(member, draft, reading);
    if (member.hasReferenceRange()) {
      ObservationReferenceRangeComponent range = member.getReferenceRangeFirstRep();
      String low = path + ".referenceRange[0].low";
      String high = path + ".referenceRange[0].high";
      draft.put("min", reading.value(SCORE, range.hasLow() ? range.getLow() : null, low), low);
      draft.put("max", reading.value(SCORE, range.hasHigh() ? range.getHigh() : null, high), high);
    }
  }
}
