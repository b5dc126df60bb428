package org.intercusp.fhir;

import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.dentition.Tooth;

/** A list of teeth, a component each. */
final class TeethField<T> extends Field<T> {

  private final String member;
  private final Concept code;
  private final Panel.Getter<T, List<Tooth>> getter;

  TeethField(String member, Concept code, Panel.Getter<T, List<Tooth>> getter) {
    this.member = member;
    this.code = code;
    this.getter = getter;
  }

  @Override
  boolean write(T element, Observation to, Canonicals canonicals) {
    List<Tooth> teeth = getter.of(element);
    if (teeth == null) {
      return false;
    }
    for (Tooth tooth : teeth) {
      component(to, code, canonicals).setValue(Kind.tooth().out().apply(tooth, canonicals));
    }
    return true;
  }

  @Override
  void read(Observation from, Draft draft, Reading reading) {
    collect(from, code, Kind.tooth(), draft, member, reading);
  }
}
