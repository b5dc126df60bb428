package org.intercusp.exchange.records;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.HTTPVerb;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.Parcel.Item;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.wire.Answer;
import org.intercusp.exchange.wire.Capabilities;
import org.intercusp.exchange.wire.Difficulty;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Token;
import org.intercusp.exchange.wire.Trouble;
import org.jspecify.annotations.Nullable;

/**
 * Writes a plan where a server takes no transaction: in the order of dependency, as batches or one
 * by one. What was written before it stops stays written, and is known by {@link #written}.
 */
final class Piecemeal {

  private final FhirServer server;
  private final Capabilities can;
  private final boolean batches;
  private final Map<String, String> addresses = new HashMap<>();
  private final List<String> written = new ArrayList<>();

  Piecemeal(FhirServer server, Capabilities can, boolean batches) {
    this.server = server;
    this.can = can;
    this.batches = batches;
  }

  /** {@code Type/id} of what has been written. */
  List<String> written() {
    return written;
  }

  void write(Plan plan, Optional<Trace> trace) throws Trouble {
    addresses.putAll(plan.known());
    Map<Item, Boolean> incomplete = new HashMap<>();
    for (Layers.Layer layer : Layers.of(plan.parcel(), plan.creates())) {
      List<BundleEntryComponent> entries = new ArrayList<>();
      for (Item item : layer.items()) {
        Set<String> loose = layer.loose().getOrDefault(item.urn(), Set.of());
        if (!loose.isEmpty()) {
          incomplete.put(item, true);
        }
        entries.add(creation(item, plan.addressed(item, addresses, loose)));
      }
      send(entries);
      locate(layer.items());
    }
    List<BundleEntryComponent> rest = new ArrayList<>();
    for (Plan.Change change : plan.changes()) {
      Resource resource = WholeBundle.replacement(plan, change, addresses);
      rest.add(replacement(resource, change.stored().getMeta().getVersionId()));
    }
    for (Item item : incomplete.keySet()) {
      Resource resource = plan.addressed(item, addresses, Set.of());
      resource.setId(addresses.get(item.urn()));
      rest.add(replacement(resource, null));
    }
    if (trace.isPresent()) {
      BundleEntryComponent entry =
          new BundleEntryComponent().setResource(trace.get().provenance(addresses));
      entry.getRequest().setMethod(HTTPVerb.POST).setUrl("Provenance");
      if (can.of("Provenance").conditionalCreate()) {
        entry.getRequest().setIfNoneExist(trace.get().token().search());
      }
      rest.add(entry);
    }
    send(rest);
  }

  private BundleEntryComponent creation(Item item, Resource resource) {
    BundleEntryComponent entry = new BundleEntryComponent().setResource(resource);
    entry.getRequest().setMethod(HTTPVerb.POST).setUrl(item.type());
    if (can.of(item.type()).conditionalCreate()) {
      entry.getRequest().setIfNoneExist(item.token().search());
    }
    return entry;
  }

  private static BundleEntryComponent replacement(Resource resource, @Nullable String version) {
    BundleEntryComponent entry = new BundleEntryComponent().setResource(resource);
    entry
        .getRequest()
        .setMethod(HTTPVerb.PUT)
        .setUrl(resource.getIdElement().toUnqualifiedVersionless().getValue());
    if (version != null) {
      entry.getRequest().setIfMatch("W/\"" + version + "\"");
    }
    return entry;
  }

  private void send(List<BundleEntryComponent> entries) throws Trouble {
    if (entries.isEmpty()) {
      return;
    }
    if (batches) {
      Bundle batch = new Bundle();
      batch.setType(BundleType.BATCH);
      entries.forEach(batch::addEntry);
      Optional<Bundle> answer = server.post(batch, false);
      answer.ifPresent(this::remember);
      if (answer.isPresent()) {
        WholeBundle.check(answer.get());
      }
      return;
    }
    for (BundleEntryComponent entry : entries) {
      single(entry);
    }
  }

  private void single(BundleEntryComponent entry) throws Trouble {
    Resource resource = entry.getResource();
    if (entry.getRequest().getMethod() == HTTPVerb.PUT) {
      String match = entry.getRequest().getIfMatch();
      server.update(resource, match == null ? null : match.replaceAll("^W/\"|\"$", ""));
      written.add(resource.getIdElement().toUnqualifiedVersionless().getValue());
      return;
    }
    Token unless =
        entry.getRequest().hasIfNoneExist()
            ? Token.of(entry.getRequest().getIfNoneExist()).orElse(null)
            : null;
    Answer answer = server.create(resource, unless);
    Place.resource(server.base(), answer.header("Location")).ifPresent(written::add);
  }

  private void remember(Bundle answer) {
    for (BundleEntryComponent entry : answer.getEntry()) {
      String location = entry.getResponse().getLocation();
      if (String.valueOf(entry.getResponse().getStatus()).startsWith("2") && location != null) {
        Place.resource(server.base(), location).ifPresent(written::add);
      }
    }
  }

  // Locations come in too many forms to build on: what was created is found by its own name.
  private void locate(List<Item> items) throws Trouble {
    List<Name> names = items.stream().map(Plan::name).toList();
    for (int tried = 1; ; tried++) {
      Snapshot found = Snapshot.of(server, names);
      items.forEach(
          item ->
              found
                  .chosen(Plan.name(item), Ledger.NONE)
                  .ifPresent(stored -> addresses.put(item.urn(), Place.of(stored))));
      boolean all = items.stream().allMatch(item -> addresses.containsKey(item.urn()));
      Trouble missing =
          new Trouble(Difficulty.FAILED, "The server does not find what it has just stored");
      if (all) {
        return;
      }
      if (!server.mayTryAgain(missing, tried)) {
        throw missing;
      }
    }
  }
}
