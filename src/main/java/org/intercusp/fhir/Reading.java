package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.CodeableConcept;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.hl7.fhir.r4.model.Type;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;
import org.intercusp.finding.Value;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/** A treatment being read back: its resources in the file's order, and the faults met so far. */
final class Reading {

  /** The standard a fault of shape is measured by. */
  static final Source STANDARD = Source.published("HL7 FHIR R4 (4.0.1)");

  private final BundleIndex index;
  private final List<Resource> resources;
  private final Canonicals canonicals;
  private final List<Finding> faults = new ArrayList<>();

  Reading(BundleIndex index, List<Resource> resources, Canonicals canonicals) {
    this.index = index;
    this.resources = List.copyOf(resources);
    this.canonicals = canonicals;
  }

  Canonicals canonicals() {
    return canonicals;
  }

  List<Finding> faults() {
    return faults;
  }

  /** Resources of a type, in the order the treatment's plan gives them. */
  <R extends Resource> List<R> all(Class<R> type) {
    return resources.stream().filter(type::isInstance).map(type::cast).toList();
  }

  /** Observations with a code. */
  List<Observation> observations(Concept code) {
    return all(Observation.class).stream().filter(o -> is(code, o.getCode())).toList();
  }

  boolean is(Concept code, CodeableConcept concept) {
    return code.isIn(concept, canonicals);
  }

  /** The resource a reference leads to inside the Bundle. */
  @Nullable Resource resolve(Reference reference) {
    return index.resolve(reference.getReference());
  }

  <R extends Resource> @Nullable R resolve(Reference reference, Class<R> type) {
    Resource resource = resolve(reference);
    return type.isInstance(resource) ? type.cast(resource) : null;
  }

  boolean leadsTo(Reference reference, Resource resource) {
    return resolve(reference) == resource;
  }

  /** FHIRPath of a resource in the Bundle. */
  String path(Resource resource) {
    return index.path(resource);
  }

  /** The id of the element a resource speaks of. */
  String id(Resource resource) {
    return index.element(resource);
  }

  /** The id of the element a reference leads to, or nothing. */
  @Nullable String idOf(Reference reference) {
    Resource resource = resolve(reference);
    if (resource == null && reference.hasReference()) {
      // An element that is not there is for the file's reader to miss.
      return reference.getReference();
    }
    return resource == null ? null : id(resource);
  }

  /** What the file would write for a FHIR value; a value of another kind is a fault. */
  @Nullable JsonNode value(Kind<?> kind, @Nullable Type value, String path) {
    if (value == null) {
      return null;
    }
    JsonNode json = kind.in().apply(value, canonicals);
    if (json == null) {
      fault("wrong-type", path, shown(value), "expected " + kind.expected());
    }
    return json;
  }

  void fault(String code, String path, String value, String what) {
    faults.add(refusal(code, path, value, what));
  }

  static Finding refusal(String code, String path, String value, String what) {
    return new Finding(
        code,
        Severity.REFUSED,
        Pointer.ROOT,
        "",
        value.isEmpty() ? null : Value.of(value),
        null,
        null,
        path + ": " + what,
        "Correct the resource at " + path + ".",
        STANDARD,
        Map.of());
  }

  /** A value in a few words. */
  static String shown(Type value) {
    return Strays.shown(value);
  }
}
