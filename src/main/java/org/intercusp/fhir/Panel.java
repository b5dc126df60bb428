package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Observation;
import org.intercusp.dentition.Tooth;
import org.intercusp.finding.Figure;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.BothArches;
import org.intercusp.treatment.BothSides;
import org.intercusp.treatment.Contacts;
import org.intercusp.treatment.JointSign;
import org.jspecify.annotations.Nullable;

/**
 * An Observation that speaks of one element of the treatment file: a line a member, which writes it
 * as value or component and reads it back. A member with slashes stands in objects within.
 */
final class Panel<T> {

  /** Gives a member of an element, or nothing. */
  @FunctionalInterface
  interface Getter<T, V> {
    @Nullable V of(T element);
  }

  private final Role role;
  private final Concept code;
  private final List<Field<T>> fields = new ArrayList<>();

  Panel(Role role, Concept code) {
    this.role = role;
    this.code = code;
  }

  Role role() {
    return role;
  }

  Concept code() {
    return code;
  }

  /** The Observation's own value. */
  <V> Panel<T> value(String member, Kind<V> kind, Getter<T, V> getter) {
    return with(new ValueField<>(member, kind, getter));
  }

  /** A component. */
  <V> Panel<T> part(String member, Concept code, Kind<V> kind, Getter<T, V> getter) {
    return with(new PartField<>(member, code, kind, getter));
  }

  /** A component that is computed from the element: the file computes it anew when it is read. */
  <V> Panel<T> computed(Concept code, Kind<V> kind, Getter<T, V> getter) {
    return with(new PartField<>(null, code, kind, getter));
  }

  /** A component each of the figures that have a code here, by their names. */
  Panel<T> figures(Map<String, Concept> codes, Getter<T, List<Figure>> getter) {
    return with(new FiguresField<>(codes, getter));
  }

  Panel<T> sides(String member, Concept right, Concept left, Getter<T, BothSides> getter) {
    part(member + "/right", right, Kind.quantity(Unit.MILLIMETRE), after(getter, BothSides::right));
    return part(
        member + "/left", left, Kind.quantity(Unit.MILLIMETRE), after(getter, BothSides::left));
  }

  Panel<T> arches(String member, Concept upper, Concept lower, Getter<T, BothArches> getter) {
    part(
        member + "/upper", upper, Kind.quantity(Unit.MILLIMETRE), after(getter, BothArches::upper));
    return part(
        member + "/lower", lower, Kind.quantity(Unit.MILLIMETRE), after(getter, BothArches::lower));
  }

  Panel<T> teeth(String member, Concept code, Getter<T, List<Tooth>> getter) {
    return with(new TeethField<>(member, code, getter));
  }

  Panel<T> jointSigns(Getter<T, List<JointSign>> getter) {
    return with(new JointSignsField<>(getter));
  }

  /** Five contacts an arch. */
  Panel<T> contacts(
      String member, List<Concept> upper, List<Concept> lower, Getter<T, Contacts> getter) {
    with(new ContactsField<>(member, "upper", upper, after(getter, Contacts::upper)));
    return with(new ContactsField<>(member, "lower", lower, after(getter, Contacts::lower)));
  }

  private Panel<T> with(Field<T> field) {
    fields.add(field);
    return this;
  }

  /** Writes every member there is; whether there was any. */
  boolean write(T element, Observation to, Canonicals canonicals) {
    boolean any = false;
    for (Field<T> field : fields) {
      any |= field.write(element, to, canonicals);
    }
    return any;
  }

  void read(Observation from, Draft draft, Reading reading) {
    for (Field<T> field : fields) {
      field.read(from, draft, reading);
    }
  }

  /** A member of a member. */
  static <T, M, V> Getter<T, V> after(Getter<T, M> first, Getter<M, V> then) {
    return element -> {
      M middle = first.of(element);
      return middle == null ? null : then.of(middle);
    };
  }
}
