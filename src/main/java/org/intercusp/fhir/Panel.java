package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.List;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationComponentComponent;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.BothArches;
import org.intercusp.treatment.BothSides;
import org.intercusp.treatment.Contacts;
import org.intercusp.treatment.Contacts.Contact;
import org.intercusp.treatment.JointSign;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;

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

  private interface Field<T> {
    boolean write(T element, Observation to, Canonicals canonicals);

    void read(Observation from, Draft draft, Reading reading);
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
    fields.add(
        new Field<>() {
          @Override
          public boolean write(T element, Observation to, Canonicals canonicals) {
            V value = getter.of(element);
            if (value != null) {
              to.setValue(kind.out().apply(value, canonicals));
            }
            return value != null;
          }

          @Override
          public void read(Observation from, Draft draft, Reading reading) {
            String at = reading.path(from) + ".value";
            put(
                draft,
                member,
                reading.value(kind, from.hasValue() ? from.getValue() : null, at),
                at);
          }
        });
    return this;
  }

  /** A component. */
  <V> Panel<T> part(String member, Concept code, Kind<V> kind, Getter<T, V> getter) {
    fields.add(
        new Field<>() {
          @Override
          public boolean write(T element, Observation to, Canonicals canonicals) {
            V value = getter.of(element);
            if (value != null) {
              component(to, code, canonicals).setValue(kind.out().apply(value, canonicals));
            }
            return value != null;
          }

          @Override
          public void read(Observation from, Draft draft, Reading reading) {
            for (Found found : found(from, code, reading)) {
              put(draft, member, reading.value(kind, found.value(), found.path()), found.path());
              return;
            }
            put(draft, member, null, reading.path(from));
          }
        });
    return this;
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

  /** A list of teeth, a component each. */
  Panel<T> teeth(String member, Concept code, Getter<T, List<Tooth>> getter) {
    fields.add(
        new Field<>() {
          @Override
          public boolean write(T element, Observation to, Canonicals canonicals) {
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
          public void read(Observation from, Draft draft, Reading reading) {
            draft.array(member);
            for (Found found : found(from, code, reading)) {
              JsonNode tooth = reading.value(Kind.tooth(), found.value(), found.path());
              if (tooth != null) {
                draft.add(member, tooth, found.path());
              }
            }
          }
        });
    return this;
  }

  /** Joint signs: none found is said, and differs from nobody having looked. */
  Panel<T> jointSigns(Getter<T, List<JointSign>> getter) {
    Kind<String> kind = Kind.codeOf(LocalSystem.JOINT_SIGN);
    fields.add(
        new Field<>() {
          @Override
          public boolean write(T element, Observation to, Canonicals canonicals) {
            List<JointSign> signs = getter.of(element);
            if (signs == null) {
              return false;
            }
            if (signs.isEmpty()) {
              to.setValue(kind.out().apply("none-found", canonicals));
            }
            for (JointSign sign : signs) {
              component(to, Codes.JOINT_SIGN, canonicals)
                  .setValue(kind.out().apply(sign.code(), canonicals));
            }
            return true;
          }

          @Override
          public void read(Observation from, Draft draft, Reading reading) {
            draft.array("jointSigns");
            for (Found found : found(from, Codes.JOINT_SIGN, reading)) {
              JsonNode sign = reading.value(kind, found.value(), found.path());
              if (sign != null) {
                draft.add("jointSigns", sign, found.path());
              }
            }
          }
        });
    return this;
  }

  /** Five contacts an arch. */
  Panel<T> contacts(
      String member, List<Concept> upper, List<Concept> lower, Getter<T, Contacts> g) {
    row(member, "upper", upper, after(g, Contacts::upper));
    return row(member, "lower", lower, after(g, Contacts::lower));
  }

  private Panel<T> row(
      String member, String arch, List<Concept> codes, Getter<T, List<Contact>> g) {
    fields.add(
        new Field<>() {
          @Override
          public boolean write(T element, Observation to, Canonicals canonicals) {
            List<Contact> contacts = g.of(element);
            if (contacts == null) {
              return false;
            }
            for (int i = 0; i < Math.min(codes.size(), contacts.size()); i++) {
              ObservationComponentComponent to1 = component(to, codes.get(i), canonicals);
              if (contacts.get(i) instanceof Contact.Unmeasured) {
                to1.setDataAbsentReason(
                    Codes.hl7Concept("data-absent-reason", "not-performed", "Not Performed"));
              } else {
                to1.setValue(Kind.contact().out().apply(contacts.get(i), canonicals));
              }
            }
            return true;
          }

          @Override
          public void read(Observation from, Draft draft, Reading reading) {
            if (codes.stream().noneMatch(code -> !found(from, code, reading).isEmpty())) {
              return;
            }
            Draft contacts = draft.object(member, reading.path(from));
            for (Concept code : codes) {
              JsonNode value = null;
              for (Found found : found(from, code, reading)) {
                value = reading.value(Kind.contact(), found.value(), found.path());
              }
              ArrayNode row = contacts.array(arch);
              row.add(value == null ? JsonNodeFactory.instance.nullNode() : value);
            }
          }
        });
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

  private record Found(@Nullable Type value, String path) {}

  private static List<Found> found(Observation from, Concept code, Reading reading) {
    List<Found> found = new ArrayList<>();
    for (int i = 0; i < from.getComponent().size(); i++) {
      ObservationComponentComponent part = from.getComponent().get(i);
      if (code.isIn(part.getCode(), reading.canonicals())) {
        String at = reading.path(from) + ".component[" + i + "].value";
        found.add(new Found(part.hasValue() ? part.getValue() : null, at));
      }
    }
    return found;
  }

  private static ObservationComponentComponent component(
      Observation to, Concept code, Canonicals canonicals) {
    return to.addComponent().setCode(code.concept(canonicals));
  }

  private static void put(Draft draft, String member, @Nullable JsonNode value, String at) {
    String[] steps = member.split("/", -1);
    if (steps.length > 1 && value == null) {
      return;
    }
    Draft into = draft;
    for (int i = 0; i + 1 < steps.length; i++) {
      into = into.object(steps[i], at);
    }
    into.put(steps[steps.length - 1], value, at);
  }

  /** A member of a member. */
  static <T, M, V> Getter<T, V> after(Getter<T, M> first, Getter<M, V> then) {
    return element -> {
      M middle = first.of(element);
      return middle == null ? null : then.of(middle);
    };
  }
}
