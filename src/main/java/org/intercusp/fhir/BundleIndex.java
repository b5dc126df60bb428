package org.intercusp.fhir;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.hl7.fhir.r4.model.Base;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Identifier;
import org.hl7.fhir.r4.model.Property;
import org.hl7.fhir.r4.model.Resource;
import org.jspecify.annotations.Nullable;

/** Where each resource of a Bundle stands, and what leads to it: urn:uuid, relative or absolute. */
final class BundleIndex {

  private final List<Resource> resources = new ArrayList<>();
  private final IdentityHashMap<Resource, Integer> entries = new IdentityHashMap<>();
  private final Map<String, Resource> byReference = new HashMap<>();

  BundleIndex(Bundle bundle) {
    for (int i = 0; i < bundle.getEntry().size(); i++) {
      Bundle.BundleEntryComponent entry = bundle.getEntry().get(i);
      if (entry.hasResource()) {
        add(entry, i);
      }
    }
  }

  private void add(Bundle.BundleEntryComponent entry, int i) {
    Resource resource = entry.getResource();
    resources.add(resource);
    entries.put(resource, i);
    if (entry.hasFullUrl()) {
      byReference.putIfAbsent(entry.getFullUrl(), resource);
    }
    if (resource.hasId()) {
      byReference.putIfAbsent(
          resource.fhirType() + "/" + resource.getIdElement().getIdPart(), resource);
    }
  }

  List<Resource> resources() {
    return resources;
  }

  /** Only the last two parts of a URL are looked at when the whole is not found. */
  @Nullable Resource resolve(@Nullable String reference) {
    if (reference == null) {
      return null;
    }
    Resource whole = byReference.get(reference);
    if (whole != null) {
      return whole;
    }
    String[] parts = reference.split("/_history/", 2)[0].split("/", -1);
    if (parts.length < 2) {
      return null;
    }
    return byReference.get(parts[parts.length - 2] + "/" + parts[parts.length - 1]);
  }

  String path(Resource resource) {
    return "Bundle.entry[" + Objects.requireNonNull(entries.get(resource)) + "].resource";
  }

  int position(Resource resource) {
    return Objects.requireNonNull(entries.get(resource));
  }

  /** The first of our own business identifiers, taken apart. */
  static Optional<Identity.Name> name(Resource resource) {
    for (Identifier identifier : identifiers(resource)) {
      if (identifier.hasSystem() && identifier.hasValue()) {
        Optional<Identity.Name> name =
            Identity.parse(identifier.getSystem(), identifier.getValue());
        if (name.isPresent()) {
          return name;
        }
      }
    }
    return Optional.empty();
  }

  /** Our own element id; of a resource that another system named, its identifier or its id. */
  String element(Resource resource) {
    Optional<Identity.Name> name = name(resource);
    if (name.isPresent()) {
      List<String> elements = name.get().elements();
      return elements.isEmpty() ? name.get().identity().treatment() : elements.get(0);
    }
    for (Identifier identifier : identifiers(resource)) {
      if (identifier.hasValue()) {
        return identifier.getValue();
      }
    }
    return resource.hasId() ? resource.getIdElement().getIdPart() : "e" + position(resource);
  }

  static List<Identifier> identifiers(Resource resource) {
    List<Identifier> identifiers = new ArrayList<>();
    for (Base base : children(resource, "identifier")) {
      if (base instanceof Identifier identifier) {
        identifiers.add(identifier);
      }
    }
    return identifiers;
  }

  /** The values of an element, none where the type has no such element. */
  static List<Base> children(Resource resource, String name) {
    for (Property property : resource.children()) {
      if (property.getName().equals(name)) {
        return property.getValues();
      }
    }
    return List.of();
  }
}
