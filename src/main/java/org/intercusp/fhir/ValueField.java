package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Observation;

/** A member that is the Observation's own value. */
final class ValueField<T, V> extends Field<T> {

  private final String member;
  private final Kind<V> kind;
  private final Panel.Getter<T, V> getter;

  ValueField(String member, Kind<V> kind, Panel.Getter<T, V> getter) {
    this.member = member;
    this.kind = kind;
    this.getter = getter;
  }

  @Override
  boolean write(T element, Observation to, Canonicals canonicals) {
    V value = getter.of(element);
    if (value != null) {
      to.setValue(kind.out().apply(value, canonicals));
    }
    return value != null;
  }

  @Override
  void read(Observation from, Draft draft, Reading reading) {
    String at = reading.path(from) + ".value";
    put(draft, member, reading.value(kind, from.hasValue() ? from.getValue() : null, at), at);
  }
}
