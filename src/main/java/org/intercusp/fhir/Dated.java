package org.intercusp.fhir;

import org.hl7.fhir.r4.model.BaseDateTimeType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Period;

/** When an Observation was true, as a date of the file. */
final class Dated {

  private Dated() {}

  static void put(Draft draft, String member, Observation resource, String path) {
    String text = null;
    if (resource.getEffective() instanceof BaseDateTimeType time) {
      text = time.getValueAsString();
    } else if (resource.getEffective() instanceof Period period) {
      text = period.getStartElement().getValueAsString();
    }
    draft.put(member, Kind.day(text), path + ".effective");
  }
}
