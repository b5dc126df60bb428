package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.DomainResource;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;

/** The resources of a treatment each by itself: with a logical id, and referring by such ids. */
final class Unbundling {

  private final Writing writing;
  private final Map<String, String> places = new HashMap<>();

  Unbundling(Writing writing) {
    this.writing = writing;
    for (Writing.Entry entry : writing.entries()) {
      places.put(
          entry.fullUrl(),
          entry.resource().fhirType() + "/" + id(entry.resource(), identifier(entry)));
    }
  }

  List<Standing> all() {
    List<Standing> all = new ArrayList<>();
    for (Writing.Entry entry : writing.entries()) {
      DomainResource resource = entry.resource();
      Identifier identifier = identifier(entry);
      String id = id(resource, identifier);
      @Nullable String patient = patient(resource);
      replace(resource);
      resource.setId(resource.fhirType() + "/" + id);
      all.add(new Standing(resource, id, identifier, entry.shared(), patient));
    }
    return all;
  }

  private String id(Resource resource, Identifier identifier) {
    return Identity.logicalId(
        writing.treatment().clinic().identifier(), resource.fhirType(), identifier);
  }

  private static Identifier identifier(Writing.Entry entry) {
    org.hl7.fhir.r4.model.Identifier first = BundleIndex.identifiers(entry.resource()).get(0);
    return new Identifier(first.getSystem(), first.getValue());
  }

  private @Nullable String patient(Resource resource) {
    String urn = writing.patient().getReference();
    List<Reference> references = new ArrayList<>();
    collect(resource, references);
    boolean named = references.stream().anyMatch(one -> urn.equals(one.getReference()));
    String place = places.get(urn);
    return named && place != null ? place.substring(place.indexOf('/') + 1) : null;
  }

  private void replace(Resource resource) {
    List<Reference> references = new ArrayList<>();
    collect(resource, references);
    for (Reference reference : references) {
      String place = places.get(reference.getReference());
      if (place != null) {
        reference.setReference(place);
      }
    }
  }

  private static void collect(Base base, List<Reference> references) {
    if (base instanceof Reference reference) {
      references.add(reference);
    }
    for (Property property : base.children()) {
      property.getValues().forEach(value -> collect(value, references));
    }
  }
}
