package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Encounter;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Period;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.measure.HoursPerDay;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Review.WearMeasured;

/** Wear over a period in hours a day, as told or as a sensor measured it. */
final class WearMapper {

  private static final Kind<HoursPerDay> HOURS = Kind.quantity(Unit.HOURS_PER_DAY);

  void toFhir(Review review, Writing writing) {
    HoursPerDay reported = review.wearReported();
    if (reported != null) {
      Period period = new Period().setEndElement(Writing.day(review.date()));
      wear(review, reported, Codes.BY_REPORT, period, Role.WEAR_REPORTED, writing);
    }
    WearMeasured measured = review.wearMeasured();
    if (measured != null) {
      Period period =
          new Period()
              .setStartElement(Writing.day(measured.from()))
              .setEndElement(Writing.day(measured.to()));
      wear(review, measured.hoursPerDay(), Codes.BY_SENSOR, period, Role.WEAR_MEASURED, writing);
    }
  }

  private static void wear(
      Review review, HoursPerDay hours, Concept method, Period period, Role role, Writing writing) {
    Observation wear = writing.observation(Codes.WEAR);
    wear.setEffective(period);
    wear.setValue(HOURS.out().apply(hours, writing.canonicals()));
    wear.setMethod(method.concept(writing.canonicals()));
    writing.add(ReviewMapper.at(review, wear, writing), role, review.id());
  }

  void fromFhir(Encounter visit, Draft draft, Reading reading) {
    for (Observation wear : reading.observations(Codes.WEAR)) {
      if (!reading.leadsTo(wear.getEncounter(), visit)) {
        continue;
      }
      String path = reading.path(wear);
      String at = path + ".value";
      Type value = wear.hasValue() ? wear.getValue() : null;
      if (!reading.is(Codes.BY_SENSOR, wear.getMethod())) {
        draft.put("wearReported", reading.value(HOURS, value, at), at);
        continue;
      }
      Draft measured = draft.object("wearMeasured", path);
      measured.put("hoursPerDay", reading.value(HOURS, value, at), at);
      if (wear.getEffective() instanceof Period period) {
        String when = path + ".effective";
        measured.put(
            "from", Kind.day(period.getStartElement().getValueAsString()), when + ".start");
        measured.put("to", Kind.day(period.getEndElement().getValueAsString()), when + ".end");
      }
    }
  }
}
