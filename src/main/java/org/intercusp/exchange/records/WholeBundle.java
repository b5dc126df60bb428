package org.intercusp.exchange.records;

import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.r4.model.Bundle.BundleEntryComponent;
import org.hl7.fhir.r4.model.Bundle.BundleType;
import org.hl7.fhir.r4.model.Bundle.HTTPVerb;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.Parcel.Item;
import org.intercusp.exchange.wire.Complaint;
import org.intercusp.exchange.wire.Difficulty;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Trouble;

/** Writes a plan as one transaction, all of it or nothing. */
final class WholeBundle {

  private final FhirServer server;

  WholeBundle(FhirServer server) {
    this.server = server;
  }

  /**
   * Writes it.
   *
   * @param conditional whether new resources are created on the condition that they are still
   *     absent; otherwise only the search before says so
   */
  void write(Plan plan, Optional<Trace> trace, boolean conditional) throws Trouble {
    Bundle bundle = new Bundle();
    bundle.setType(BundleType.TRANSACTION);
    for (Item item : plan.creates()) {
      create(bundle, item, plan, conditional);
    }
    for (Plan.Change change : plan.changes()) {
      update(bundle, change.stored(), replacement(plan, change, plan.known()));
    }
    trace.ifPresent(
        one -> {
          Resource provenance = one.provenance(Map.of());
          BundleEntryComponent entry =
              bundle.addEntry().setFullUrl(one.urn()).setResource(provenance);
          entry.getRequest().setMethod(HTTPVerb.POST).setUrl("Provenance");
          if (conditional) {
            entry.getRequest().setIfNoneExist(one.token().search());
          }
        });
    Optional<Bundle> answer = server.post(bundle, conditional);
    if (answer.isPresent()) {
      check(answer.get());
      created(plan, answer.get());
    }
  }

  // A late one of our own, or somebody else, was first with what was looked for in vain: nothing
  // was stored for the entry, and what is there may say something else.
  private static void created(Plan plan, Bundle answer) throws Trouble {
    for (int i = 0; i < Math.min(plan.creates().size(), answer.getEntry().size()); i++) {
      String status = String.valueOf(answer.getEntry().get(i).getResponse().getStatus());
      if (!plan.creates().get(i).shared() && status.startsWith("200")) {
        throw new Trouble(Difficulty.CONTENDED, "Somebody else stored a resource first");
      }
    }
  }

  private static void create(Bundle bundle, Item item, Plan plan, boolean conditional) {
    Resource resource = plan.addressed(item, plan.known(), Set.of());
    BundleEntryComponent entry = bundle.addEntry().setFullUrl(item.urn()).setResource(resource);
    // Never an update on condition: one that comes late would put old content over new.
    entry.getRequest().setMethod(HTTPVerb.POST).setUrl(item.type());
    if (conditional) {
      entry.getRequest().setIfNoneExist(item.token().search());
    }
  }

  /** What takes the place of a stored resource, with the stored id. */
  static Resource replacement(Plan plan, Plan.Change change, Map<String, String> known) {
    Resource resource =
        change
            .item()
            .map(item -> plan.addressed(item, known, Set.of()))
            .or(change::marked)
            .orElseThrow();
    resource.setId(Place.of(change.stored()));
    resource.getMeta().setVersionId(null).setLastUpdated(null);
    return resource;
  }

  private void update(Bundle bundle, Resource stored, Resource resource) {
    String address = Place.of(stored);
    BundleEntryComponent entry =
        bundle.addEntry().setFullUrl(server.base() + "/" + address).setResource(resource);
    entry.getRequest().setMethod(HTTPVerb.PUT).setUrl(address);
    if (stored.getMeta().hasVersionId()) {
      entry.getRequest().setIfMatch("W/\"" + stored.getMeta().getVersionId() + "\"");
    }
  }

  /** A transaction may be answered 200 and hold entries that failed. */
  static void check(Bundle answer) throws Trouble {
    for (BundleEntryComponent entry : answer.getEntry()) {
      String status = entry.getResponse().getStatus();
      if (status != null && !status.startsWith("2")) {
        throw Complaint.of(status, entry.getResponse().getOutcome());
      }
    }
  }
}
