package org.intercusp.fhir;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Coding;
import org.hl7.fhir.r4.model.DateTimeType;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Observation;
import org.hl7.fhir.r4.model.Reference;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;

/** A treatment being written: its names, and the resources made so far in their order. */
final class Writing {

  /** A resource with the search that finds it again where it is stored. */
  record Entry(String fullUrl, DomainResource resource, String search, boolean shared) {}

  private final Treatment treatment;
  private final Canonicals canonicals;
  private final Identity identity;
  private final Map<String, Entry> entries = new LinkedHashMap<>();

  Writing(Treatment treatment, Canonicals canonicals) {
    this.treatment = treatment;
    this.canonicals = canonicals;
    this.identity = Identity.of(treatment.clinic().identifier(), treatment.id());
  }

  Treatment treatment() {
    return treatment;
  }

  Canonicals canonicals() {
    return canonicals;
  }

  Identity identity() {
    return identity;
  }

  List<Entry> entries() {
    return new ArrayList<>(entries.values());
  }

  /** Adds a resource of this treatment under its business identifier. */
  <R extends DomainResource> R add(R resource, Role role, String... elements) {
    Identifier identifier = identity.identifier(role, elements);
    resource.getMeta().addProfile(canonicals.of(role.profile()));
    if (role == Role.OVERJET || role == Role.OVERBITE) {
      resource.getMeta().addProfile(Codes.US_DENTAL + "StructureDefinition/dental-findings");
    }
    resource.setProperty("identifier", fhir(identifier));
    boolean tagged = role == Role.ADVERSE_EVENT;
    if (tagged) {
      // R4 has no search by identifier for AdverseEvent, so a tag carries it too.
      resource.getMeta().addTag(new Coding(identifier.system(), identifier.value(), null));
    }
    String search = Identity.search(tagged ? "_tag" : "identifier", identifier);
    String url = Identity.urn(resource.fhirType(), identifier);
    entries.put(url, new Entry(url, resource, search, false));
    return resource;
  }

  /** Adds a resource that other treatments share, once. */
  void addShared(DomainResource resource, Profile profile, Identifier identifier) {
    resource.getMeta().addProfile(canonicals.of(profile));
    resource.setProperty("identifier", fhir(identifier));
    String url = Identity.urn(resource.fhirType(), identifier);
    String search = Identity.search("identifier", identifier);
    entries.putIfAbsent(url, new Entry(url, resource, search, true));
  }

  /** An Observation of a panel, added if the element gives it anything to say. */
  <T> @Nullable Observation observe(Panel<T> panel, T element, LocalDate on, String... elements) {
    Observation observation = observation(panel.code()).setEffective(day(on));
    if (!panel.write(element, observation, canonicals)) {
      return null;
    }
    return add(observation, panel.role(), elements);
  }

  /** A final Observation about the patient by the clinician, in the categories dental and exam. */
  Observation observation(Concept code) {
    Observation observation = new Observation();
    observation.setStatus(Observation.ObservationStatus.FINAL);
    observation
        .addCategory()
        .addCoding(new Coding(Codes.US_DENTAL + "CodeSystem/dental-category", "dental", "Dental"));
    observation.addCategory().addCoding(Codes.hl7("observation-category", "exam", "Exam"));
    observation.setCode(code.concept(canonicals));
    observation.setSubject(patient());
    observation.addPerformer(clinician());
    return observation;
  }

  /** A reference to a resource of this treatment, added already or later. */
  Reference to(String type, Role role, String... elements) {
    return new Reference(Identity.urn(type, identity.identifier(role, elements)));
  }

  boolean has(String type, Role role, String... elements) {
    return entries.containsKey(Identity.urn(type, identity.identifier(role, elements)));
  }

  Reference patient() {
    return new Reference(Identity.urn("Patient", treatment.patient().identifier()));
  }

  Reference clinician() {
    return new Reference(Identity.urn("Practitioner", treatment.clinician().identifier()));
  }

  Reference clinic() {
    return new Reference(Identity.urn("Organization", treatment.clinic().identifier()));
  }

  Reference plan() {
    return to("CarePlan", Role.PLAN);
  }

  Reference diagnosis() {
    return to("Condition", Role.DIAGNOSIS);
  }

  static DateTimeType day(LocalDate date) {
    return new DateTimeType(date.toString());
  }

  static Base fhir(Identifier identifier) {
    return new org.hl7.fhir.r4.model.Identifier()
        .setSystem(identifier.system())
        .setValue(identifier.value());
  }
}
