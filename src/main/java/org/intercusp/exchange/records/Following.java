package org.intercusp.exchange.records;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Reference;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Trouble;

/** Follows the references of resources that a server holds to what else belongs to them there. */
final class Following {

  /** How far: to a role, its person, its organisation. */
  private static final int STEPS = 3;

  /** Reads what lies at {@code Type/id}; empty where there is nothing, or nothing for us. */
  interface Reading {
    Optional<Resource> at(String address) throws Trouble;
  }

  private final FhirServer server;
  private final Reading reading;

  Following(FhirServer server, Reading reading) {
    this.server = server;
    this.reading = reading;
  }

  /** Adds what the members refer to, by address. */
  void complete(Map<String, Resource> members) throws Trouble {
    List<Resource> newest = new ArrayList<>(members.values());
    for (int step = 0; step < STEPS && !newest.isEmpty(); step++) {
      List<Resource> reached = new ArrayList<>();
      for (String address : places(newest)) {
        if (!members.containsKey(address)) {
          Optional<Resource> there = reading.at(address);
          there.ifPresent(one -> members.put(address, one));
          there.ifPresent(reached::add);
        }
      }
      newest = reached;
    }
  }

  private Set<String> places(List<Resource> resources) {
    Set<String> places = new LinkedHashSet<>();
    for (Resource resource : resources) {
      for (Reference reference : references(server, resource)) {
        Place.resource(server.base(), reference.getReference()).ifPresent(places::add);
      }
    }
    return places;
  }

  /** The references in a resource that say where to. */
  static List<Reference> references(FhirServer server, Resource resource) {
    return server.text().context().newTerser().getAllResourceReferences(resource).stream()
        .map(info -> info.getResourceReference())
        .filter(Reference.class::isInstance)
        .map(Reference.class::cast)
        .filter(Reference::hasReference)
        .toList();
  }

  /** All of them in one Bundle. */
  Bundle bundle(Map<String, Resource> members) {
    Bundle bundle = new Bundle();
    bundle.setType(BundleType.COLLECTION);
    members.forEach(
        (address, resource) ->
            bundle.addEntry().setFullUrl(server.base() + "/" + address).setResource(resource));
    return bundle;
  }
}
