package org.intercusp.fhir;

import org.hl7.fhir.r4.model.Observation;
import org.jspecify.annotations.Nullable;

/** A component: of a member, or computed and then never read back. */
final class PartField<T, V> extends Field<T> {

  private final @Nullable String member;
  private final Concept code;
  private final Kind<V> kind;
  private final Panel.Getter<T, V> getter;

  PartField(@Nullable String member, Concept code, Kind<V> kind, Panel.Getter<T, V> getter) {
    this.member = member;
    this.code = code;
    this.kind = kind;
    this.getter = getter;
  }

  @Override
  boolean write(T element, Observation to, Canonicals canonicals) {
    V value = getter.of(element);
    if (value != null) {
      component(to, code, canonicals).setValue(kind.out().apply(value, canonicals));
    }
    return value != null && member != null;
  }

  @Override
  void read(Observation from, Draft draft, Reading reading) {
    if (member == null) {
      return;
    }
    for (Found found : found(from, code, reading)) {
      put(draft, member, reading.value(kind, found.value(), found.path()), found.path());
      return;
    }
    put(draft, member, null, reading.path(from));
  }
}
