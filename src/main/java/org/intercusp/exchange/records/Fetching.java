package org.intercusp.exchange.records;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.wire.Capabilities;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Token;
import org.intercusp.exchange.wire.Trouble;
import org.intercusp.fhir.Identity;

/**
 * Reads a patient's treatments back from a server. What it does not let us read is named, and the
 * rest is read all the same.
 */
final class Fetching {

  private final FhirServer server;
  private final Map<String, Resource> known = new LinkedHashMap<>();
  private final Set<String> forbidden = new TreeSet<>();

  Fetching(FhirServer server) {
    this.server = server;
  }

  FetchResult run(String system, String value) {
    try {
      Capabilities can = server.capabilities();
      Name name = new Name("Patient", new Token(Token.IDENTIFIER, system, value));
      List<Resource> patients = Snapshot.of(server, List.of(name)).all(name);
      if (patients.isEmpty()) {
        return new FetchResult.NoSuchPatient();
      }
      Map<String, Map<Name, Resource>> treatments = new TreeMap<>();
      Survey survey = new Survey(server, can);
      for (Resource patient : patients) {
        know(patient);
        String id = patient.getIdElement().getIdPart();
        for (Resource resource : survey.of(id, (what, said) -> forbidden.add(what))) {
          know(resource);
          Survey.own(resource).ifPresent(one -> take(treatments, one, resource));
        }
      }
      List<Bundle> bundles = new ArrayList<>();
      for (Map<Name, Resource> own : treatments.values()) {
        bundles.add(bundle(own.values()));
      }
      return new FetchResult.Fetched(bundles, List.copyOf(forbidden));
    } catch (Trouble e) {
      return new FetchResult.Failed(e.difficulty(), e.reason(), e.status(), e.words());
    }
  }

  private static void take(
      Map<String, Map<Name, Resource>> treatments, Name name, Resource resource) {
    Identity identity =
        Identity.parse(name.token().system(), name.token().value()).orElseThrow().identity();
    treatments
        .computeIfAbsent(identity.system() + " " + identity.treatment(), k -> new LinkedHashMap<>())
        .putIfAbsent(name, resource);
  }

  private Bundle bundle(Collection<Resource> own) throws Trouble {
    Map<String, Resource> members = new LinkedHashMap<>();
    own.forEach(one -> members.put(Place.of(one), one));
    Following following = new Following(server, this::read);
    following.complete(members);
    return following.bundle(members);
  }

  private Optional<Resource> read(String address) throws Trouble {
    Resource before = known.get(address);
    if (before != null) {
      return Optional.of(before);
    }
    String[] parts = address.split("/", 2);
    if (forbidden.contains(address)) {
      return Optional.empty();
    }
    try {
      Optional<Resource> resource = server.read(parts[0], parts[1]);
      resource.ifPresent(this::know);
      return resource;
    } catch (Trouble e) {
      if (!e.isForbidden()) {
        throw e;
      }
      forbidden.add(address);
      return Optional.empty();
    }
  }

  private void know(Resource resource) {
    known.put(Place.of(resource), resource);
  }
}
