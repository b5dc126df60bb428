package org.intercusp.registry.bundle;

import java.math.BigDecimal;
import java.time.LocalDate;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.IntegerType;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Observation.ObservationComponentComponent;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.Type;
import org.hl7.fhir.r4.model.codesystems.DataAbsentReason;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.LocalSystem;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.node.ObjectNode;

/** The components of the registry's Observations: written from values, read as JSON members. */
final class Items {

  private static final String UCUM = "http://unitsofmeasure.org";

  private static final String ABSENT = DataAbsentReason.UNKNOWN.getSystem();
  private static final String UNKNOWN = DataAbsentReason.UNKNOWN.toCode();

  private final Canonicals canonicals;
  private final Observation observation;

  Items(Canonicals canonicals, Observation observation) {
    this.canonicals = canonicals;
    this.observation = observation;
  }

  static CodeableConcept concept(Canonicals canonicals, LocalSystem system, String code) {
    return new CodeableConcept(new Coding(canonicals.of(system), code, system.display(code)));
  }

  private void add(String item, Type value) {
    observation
        .addComponent()
        .setCode(concept(canonicals, LocalSystem.REGISTRY_ITEM, item))
        .setValue(value);
  }

  void code(String item, LocalSystem system, @Nullable String code) {
    if (code != null) {
      add(item, concept(canonicals, system, code));
    }
  }

  /** Says that nobody knows the value of an item. */
  void unknown(String item) {
    observation
        .addComponent()
        .setCode(concept(canonicals, LocalSystem.REGISTRY_ITEM, item))
        .setDataAbsentReason(
            new CodeableConcept(
                new Coding(ABSENT, UNKNOWN, DataAbsentReason.UNKNOWN.getDisplay())));
  }

  void day(String item, @Nullable LocalDate day) {
    if (day != null) {
      add(item, new DateTimeType(day.toString()));
    }
  }

  void count(String item, @Nullable Integer count) {
    if (count != null) {
      add(item, new IntegerType(count));
    }
  }

  void quantity(String item, @Nullable BigDecimal value, String unit) {
    if (value != null) {
      add(item, new Quantity().setValue(value).setUnit(unit).setSystem(UCUM).setCode(unit));
    }
  }

  /** Puts the value of an item, where there is one, as a member of an outcome record. */
  void read(String item, ObjectNode into, String member) {
    for (ObservationComponentComponent part : observation.getComponent()) {
      if (is(part, item)) {
        put(part.hasDataAbsentReason() ? null : part.getValue(), into, member);
      }
    }
  }

  boolean isUnknown(String item) {
    return observation.getComponent().stream()
        .anyMatch(
            part ->
                is(part, item)
                    && !part.hasValue()
                    && part.getDataAbsentReason().hasCoding(ABSENT, UNKNOWN));
  }

  boolean has(String item) {
    return observation.getComponent().stream().anyMatch(part -> is(part, item));
  }

  private boolean is(ObservationComponentComponent part, String item) {
    return part.getCode().hasCoding(canonicals.of(LocalSystem.REGISTRY_ITEM), item);
  }

  private static void put(@Nullable Type value, ObjectNode into, String member) {
    if (value instanceof CodeableConcept concept) {
      into.put(member, concept.getCodingFirstRep().getCode());
    } else if (value instanceof DateTimeType day) {
      into.put(member, day.getValueAsString());
    } else if (value instanceof IntegerType count) {
      into.put(member, count.getValue());
    } else if (value instanceof Quantity quantity) {
      into.put(member, quantity.getValue());
    } else {
      // The strict reader says what is wrong with it.
      into.putNull(member);
    }
  }
}
