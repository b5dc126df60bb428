package org.intercusp.exchange;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Date;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Predicate;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.FaultyServer.Asked;
import org.intercusp.exchange.FaultyServer.Said;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Token;
import org.intercusp.fhir.Canonicals;
import org.intercusp.fhir.version.Conversion;
import org.intercusp.fhir.version.Release;

/**
 * As much of a records server as the tests of queueing need, fast and without checks of its own: it
 * makes duplicates where it is let, and a version of every update. What deliveries do to real
 * servers is for the contract suite.
 */
public final class FakeRecords {

  private static final String STATEMENT =
      "{\"resourceType\":\"CapabilityStatement\",\"status\":\"active\",\"kind\":\"instance\","
          + "\"fhirVersion\":\"%s\",\"format\":[\"json\"],\"rest\":[{\"mode\":\"server\","
          + "\"interaction\":[{\"code\":\"transaction\"}]}]}";

  private final Release release;
  private final Conversion conversion;
  private final Map<String, Resource> stored = new LinkedHashMap<>();
  private final Map<String, AtomicInteger> atOnce = new ConcurrentHashMap<>();
  private final AtomicInteger mostAtOnce = new AtomicInteger();
  private volatile long lastAsked;
  private volatile String lastWritten = "";
  private int ids;

  public FakeRecords(FaultyServer door) {
    this(door, Release.R4);
  }

  /** One that speaks another release. */
  public FakeRecords(FaultyServer door, Release release) {
    this(door, release, Canonicals.RESERVED);
  }

  /** The same where what is written to it stands under another base. */
  public FakeRecords(FaultyServer door, Release release, Canonicals canonicals) {
    this(door, 0, false, () -> {}, release, canonicals);
  }

  /**
   * One whose first writes are never answered.
   *
   * @param silent how many
   * @param keeps whether it stores them all the same
   * @param told is run when one of them is there
   */
  FakeRecords(FaultyServer door, int silent, boolean keeps, Runnable told) {
    this(door, silent, keeps, told, Release.R4, Canonicals.RESERVED);
  }

  private FakeRecords(
      FaultyServer door,
      int silent,
      boolean keeps,
      Runnable told,
      Release release,
      Canonicals canonicals) {
    this.release = release;
    this.conversion = Conversion.compact(Clients.R4, canonicals.base());
    door.fault(
        silent,
        Asked::isWrite,
        (one, real) -> {
          if (keeps) {
            transaction(one);
          }
          told.run();
          Thread.sleep(60_000);
          return Said.nothing();
        });
    door.always(
        one -> {
          lastAsked = System.nanoTime();
          return false;
        },
        (one, real) -> real.ask());
    door.always(
        Asked::isMetadata,
        (one, real) -> Said.of(200, FaultyServer.FHIR, STATEMENT.formatted(release.version())));
    door.always(
        one -> !one.isWrite(),
        (one, real) -> one.query().isEmpty() ? read(one) : json(search(one)));
    door.always(Asked::isWrite, (one, real) -> json(transaction(one)));
  }

  private Said json(Resource resource) {
    String text = new String(conversion.json(resource, release), StandardCharsets.UTF_8);
    return Said.of(200, FaultyServer.FHIR, text);
  }

  private synchronized Said read(Asked asked) {
    String[] parts = asked.path().split("/");
    String type = release.typeNameInR4(parts[parts.length - 2]);
    Resource there = stored.get(type + "/" + parts[parts.length - 1]);
    return there == null
        ? Said.of(404, FaultyServer.FHIR, "{\"resourceType\":\"OperationOutcome\"}")
        : json(there);
  }

  private synchronized Bundle search(Asked asked) {
    String type = release.typeNameInR4(asked.path().substring(asked.path().lastIndexOf('/') + 1));
    Bundle found = new Bundle().setType(BundleType.SEARCHSET);
    List<Predicate<Resource>> asks =
        Stream.of(asked.query().split("&"))
            .map(part -> part.split("=", 2))
            .map(sides -> Sought.of(sides[0], sides[1]))
            .toList();
    for (Map.Entry<String, Resource> one : stored.entrySet()) {
      if (one.getKey().startsWith(type + "/")
          && asks.stream().allMatch(ask -> ask.test(one.getValue()))) {
        found.addEntry().setFullUrl("http://x/" + one.getKey()).setResource(one.getValue());
      }
    }
    return found;
  }

  private Bundle transaction(Asked asked) throws InterruptedException {
    lastWritten = asked.body();
    Bundle bundle = (Bundle) conversion.fromJson(asked.body(), release);
    Set<String> patients = patients(bundle);
    patients.forEach(this::enter);
    try {
      Thread.sleep(15);
      return taken(bundle);
    } finally {
      patients.forEach(one -> atOnce.get(one).decrementAndGet());
    }
  }

  private void enter(String patient) {
    int now = atOnce.computeIfAbsent(patient, key -> new AtomicInteger()).incrementAndGet();
    mostAtOnce.accumulateAndGet(now, Math::max);
  }

  private synchronized Set<String> patients(Bundle bundle) {
    Set<String> patients = new TreeSet<>();
    for (BundleEntryComponent entry : bundle.getEntry()) {
      java.util.Optional.ofNullable(entry.getResource().getChildByName("subject")).stream()
          .flatMap(property -> property.getValues().stream())
          .map(base -> (org.hl7.fhir.r4.model.Reference) base)
          .map(reference -> String.valueOf(reference.getReference()))
          .map(one -> stored.containsKey(one) ? urn(stored.get(one)) : one)
          .forEach(patients::add);
    }
    return patients;
  }

  private static String urn(Resource patient) {
    var identifier = ((org.hl7.fhir.r4.model.Patient) patient).getIdentifierFirstRep();
    return org.intercusp.fhir.Identity.urn(
        "Patient",
        new org.intercusp.treatment.Identifier(identifier.getSystem(), identifier.getValue()));
  }

  private synchronized Bundle taken(Bundle bundle) {
    Map<String, String> where = new HashMap<>();
    for (BundleEntryComponent entry : bundle.getEntry()) {
      String url = entry.getRequest().getUrl();
      String type = entry.getResource().fhirType();
      where.put(entry.getFullUrl(), url.contains("/") ? url : type + "/" + ++ids);
    }
    Bundle answer = new Bundle().setType(BundleType.TRANSACTIONRESPONSE);
    for (BundleEntryComponent entry : bundle.getEntry()) {
      String address = where.get(entry.getFullUrl());
      Clients.R4.newTerser().getAllResourceReferences(entry.getResource()).stream()
          .map(info -> (org.hl7.fhir.r4.model.Reference) info.getResourceReference())
          .filter(reference -> where.containsKey(String.valueOf(reference.getReference())))
          .forEach(
              reference -> {
                reference.setReference(where.get(reference.getReference()));
                reference.setResource(null);
              });
      Resource before = stored.get(address);
      int version = before == null ? 1 : Integer.parseInt(before.getMeta().getVersionId()) + 1;
      entry.getResource().setId(address);
      entry.getResource().getMeta().setVersionId(Integer.toString(version));
      entry.getResource().getMeta().setLastUpdated(new Date());
      stored.put(address, entry.getResource());
      answer.addEntry().getResponse().setStatus(before == null ? "201 Created" : "200 (OK)");
    }
    return answer;
  }

  /** What its people write there themselves. */
  public synchronized <R extends Resource> R write(R resource) {
    Resource before = resource.hasId() ? stored.get(Place.of(resource)) : null;
    if (!resource.hasId()) {
      resource.setId(resource.fhirType() + "/" + ++ids);
    }
    int version = before == null ? 1 : Integer.parseInt(before.getMeta().getVersionId()) + 1;
    resource.getMeta().setVersionId(Integer.toString(version)).setLastUpdated(new Date());
    stored.put(Place.of(resource), resource);
    return resource;
  }

  public synchronized void remove(Resource resource) {
    stored.remove(Place.of(resource));
  }

  /** A copy of the one whose business identifier ends so. */
  public synchronized <R extends Resource> R find(Class<R> type, String end) {
    return type.cast(
        stored.values().stream()
            .filter(type::isInstance)
            .filter(
                one -> Token.identifiers(one).stream().anyMatch(id -> id.getValue().endsWith(end)))
            .findFirst()
            .orElseThrow()
            .copy());
  }

  public synchronized long count(String type) {
    return stored.keySet().stream().filter(one -> one.startsWith(type + "/")).count();
  }

  public synchronized List<Resource> all() {
    return List.copyOf(stored.values());
  }

  /** Whether nobody asked anything for so long. */
  boolean isQuietSince(long millis) {
    return System.nanoTime() - lastAsked > millis * 1_000_000;
  }

  /** The body of the last transaction, as it came. */
  public String lastWritten() {
    return lastWritten;
  }

  /** As if its people had removed all of a type. */
  public synchronized void forget(String type) {
    stored.keySet().removeIf(address -> address.startsWith(type + "/"));
  }

  public synchronized int stored() {
    return stored.size();
  }

  public synchronized int mostVersions() {
    return stored.values().stream()
        .mapToInt(one -> Integer.parseInt(one.getMeta().getVersionId()))
        .max()
        .orElse(0);
  }

  /** How many resources have a business identifier that another one has too. */
  public synchronized int duplicates() {
    List<String> names = new ArrayList<>();
    for (Resource resource : stored.values()) {
      Token.identifiers(resource).stream()
          .forEach(one -> names.add(resource.fhirType() + one.getSystem() + "|" + one.getValue()));
    }
    return names.size() - new TreeSet<>(names).size();
  }

  public int mostAtOnceForAPatient() {
    return mostAtOnce.get();
  }
}
