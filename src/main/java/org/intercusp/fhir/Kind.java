package org.intercusp.fhir;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.function.BiFunction;
import org.hl7.fhir.r4.model.BooleanType;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.IntegerType;
import org.hl7.fhir.r4.model.PrimitiveType;
import org.hl7.fhir.r4.model.Quantity;
import org.hl7.fhir.r4.model.StringType;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Coded;
import org.intercusp.treatment.Contacts.Contact;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.JsonNodeFactory;

/**
 * A kind of value and its FHIR data type, both ways. Inwards it gives what the treatment file would
 * write, or nothing when the FHIR value is of another kind or in another unit.
 *
 * @param expected what a person is told was expected
 */
record Kind<V>(
    String expected,
    BiFunction<V, Canonicals, Type> out,
    BiFunction<Type, Canonicals, @Nullable JsonNode> in) {

  private static final JsonNodeFactory JSON = JsonNodeFactory.instance;

  /** A quantity of the trade, in its unit. */
  static <Q extends org.intercusp.measure.Quantity> Kind<Q> quantity(Unit unit) {
    return new Kind<>(
        "a quantity in " + unit.ucum(),
        (value, canonicals) -> ucum(value.value(), unit.ucum(), shown(unit)),
        (type, canonicals) -> number(type, unit.ucum()));
  }

  /** A number in the unit given. */
  static Kind<Decimal> decimal(Unit unit) {
    return new Kind<>(
        "a quantity in " + unit.ucum(),
        (value, canonicals) -> ucum(value.value(), unit.ucum(), shown(unit)),
        (type, canonicals) -> number(type, unit.ucum()));
  }

  /** A whole number of the unit given. */
  static Kind<Integer> count(Unit unit) {
    return new Kind<>(
        "a quantity in " + unit.ucum(),
        (value, canonicals) -> ucum(BigDecimal.valueOf(value), unit.ucum(), shown(unit)),
        (type, canonicals) -> number(type, unit.ucum()));
  }

  static Kind<Integer> integer() {
    return new Kind<>(
        "a whole number",
        (value, canonicals) -> new IntegerType(value),
        (type, canonicals) ->
            type instanceof IntegerType n && n.getValue() != null
                ? JSON.numberNode(n.getValue())
                : null);
  }

  static Kind<Boolean> bool() {
    return new Kind<>(
        "a boolean",
        (value, canonicals) -> new BooleanType(value),
        (type, canonicals) ->
            type instanceof BooleanType b && b.getValue() != null
                ? JSON.booleanNode(b.getValue())
                : null);
  }

  static Kind<String> text() {
    return new Kind<>(
        "a text",
        (value, canonicals) -> new StringType(value),
        (type, canonicals) ->
            type instanceof StringType s && s.hasValue() ? JSON.stringNode(s.getValue()) : null);
  }

  /** A text where FHIR takes a concept. */
  static Kind<String> words() {
    return new Kind<>(
        "a concept with text",
        (value, canonicals) -> new CodeableConcept().setText(value),
        (type, canonicals) ->
            type instanceof CodeableConcept c && c.hasText() ? JSON.stringNode(c.getText()) : null);
  }

  static Kind<LocalDate> date() {
    return new Kind<>(
        "a date",
        (value, canonicals) -> new DateTimeType(value.toString()),
        (type, canonicals) ->
            type instanceof PrimitiveType<?> p && p.hasValue() ? day(p.getValueAsString()) : null);
  }

  static <C extends Coded> Kind<C> coded(LocalSystem system) {
    return code(system, Coded::code);
  }

  static Kind<String> codeOf(LocalSystem system) {
    return code(system, code -> code);
  }

  static Kind<Side> side() {
    return code(LocalSystem.SIDE, Side::code);
  }

  /** An arch with its SNOMED CT coding beside ours. */
  static Kind<Arch> arch() {
    Kind<Arch> ours = code(LocalSystem.ARCH, Arch::code);
    return new Kind<>(
        ours.expected,
        (arch, canonicals) -> {
          CodeableConcept concept = (CodeableConcept) ours.out.apply(arch, canonicals);
          Concept snomed = arch == Arch.UPPER ? Codes.UPPER_ARCH : Codes.LOWER_ARCH;
          return concept.addCoding(snomed.coding(canonicals));
        },
        ours.in);
  }

  static Kind<Tooth> tooth() {
    return new Kind<>(
        "a tooth in ISO 3950 or SNOMED CT",
        (tooth, canonicals) -> ToothCodes.published().concept(tooth),
        (type, canonicals) ->
            type instanceof CodeableConcept c
                ? ToothCodes.published().tooth(c).map(JSON::stringNode).orElse(null)
                : null);
  }

  /** A contact that was measured or found impacted; one not measured has no value at all. */
  static Kind<Contact> contact() {
    return new Kind<>(
        "a quantity in mm, or impacted",
        (contact, canonicals) ->
            contact instanceof Contact.Displaced displaced
                ? ucum(displaced.by().value(), "mm", "mm")
                : Codes.IMPACTED.concept(canonicals),
        (type, canonicals) ->
            type instanceof CodeableConcept c && Codes.IMPACTED.isIn(c, canonicals)
                ? JSON.stringNode("impacted")
                : number(type, "mm"));
  }

  static Quantity ucum(BigDecimal value, String code, String shown) {
    return new Quantity().setValue(value).setUnit(shown).setSystem(Codes.UCUM).setCode(code);
  }

  static @Nullable JsonNode day(@Nullable String dateTime) {
    // A time of day says nothing more in a file of dates.
    return dateTime == null ? null : JSON.stringNode(dateTime.split("T", 2)[0]);
  }

  private static <C> Kind<C> code(LocalSystem system, java.util.function.Function<C, String> code) {
    return new Kind<>(
        "a code of " + system.kebab(),
        (value, canonicals) -> {
          Concept concept = system.concept(code.apply(value));
          return new CodeableConcept(concept.coding(canonicals));
        },
        (type, canonicals) ->
            type instanceof CodeableConcept c ? codeIn(c, canonicals.of(system)) : null);
  }

  static @Nullable JsonNode codeIn(CodeableConcept concept, String system) {
    List<Coding> codings = concept.getCoding();
    return codings.stream()
        .filter(coding -> system.equals(coding.getSystem()) && coding.hasCode())
        .findFirst()
        .map(coding -> (JsonNode) JSON.stringNode(coding.getCode()))
        .orElse(null);
  }

  private static @Nullable JsonNode number(Type type, String unit) {
    boolean fits =
        type instanceof Quantity q
            && q.hasValue()
            && !q.hasComparator()
            && Codes.UCUM.equals(q.getSystem())
            && unit.equals(q.getCode());
    return fits ? JSON.numberNode(((Quantity) type).getValue()) : null;
  }

  private static String shown(Unit unit) {
    return unit.shown().isEmpty() ? unit.ucum().toLowerCase(Locale.ROOT) : unit.shown();
  }
}
