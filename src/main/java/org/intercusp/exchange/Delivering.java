package org.intercusp.exchange;

import java.time.Clock;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.DeliveryReport.Way;
import org.intercusp.exchange.DeliveryResult.Conflicting;
import org.intercusp.exchange.DeliveryResult.Delivered;
import org.intercusp.exchange.DeliveryResult.Failed;
import org.intercusp.exchange.Snapshot.Name;

/**
 * One delivery: look, plan, write what is missing, look again. When a write comes to an end that
 * leaves open whether it was done, the next round looks before it writes.
 */
final class Delivering {

  private final FhirServer server;
  private final Parcel parcel;
  private final Ledger ledger;
  private final boolean mayCreate;
  private final Clock clock;
  private final Likeness likeness;
  private List<String> written = List.of();

  Delivering(FhirServer server, Parcel parcel, Ledger ledger, boolean mayCreate, Clock clock) {
    this.mayCreate = mayCreate;
    this.server = server;
    this.parcel = parcel;
    this.ledger = ledger;
    this.clock = clock;
    this.likeness = new Likeness(server.text(), server.base());
  }

  DeliveryResult run() {
    try {
      return delivered();
    } catch (Trouble e) {
      return new Failed(
          e.difficulty(), e.reason(), e.status(), e.words(), e.retryAfter().orElse(null), written);
    }
  }

  private DeliveryResult delivered() throws Trouble {
    Capabilities can = server.capabilities();
    for (String type : parcel.types()) {
      if (!can.keeps(type)) {
        throw new Trouble(Difficulty.UNSUITABLE, "The server does not keep " + type);
      }
    }
    String digest = Likeness.digest(server.base() + "\n" + parcel.digest(likeness));
    Way way = Way.NOTHING;
    for (int tried = 1; ; tried++) {
      Set<Name> gone = gone(can);
      Snapshot before = Snapshot.of(server, names(gone));
      Plan plan = new Plan(parcel, before, gone, ledger, likeness);
      if (!plan.conflicts().isEmpty()) {
        return new Conflicting(plan.conflicts());
      }
      if (!mayCreate && !plan.creates().isEmpty()) {
        throw new Trouble(
            Difficulty.UNSUITABLE, "The server no longer holds what it would be told about");
      }
      Optional<Trace> trace = trace(can, plan, digest);
      if (plan.isEmpty() && trace.isEmpty()) {
        return new Delivered(report(plan, before, gone, way, digest));
      }
      try {
        way = write(plan, trace, can);
        return new Delivered(verified(plan, gone, way, digest));
      } catch (Trouble e) {
        if (!server.mayTryAgain(e, tried)) {
          throw e;
        }
      }
    }
  }

  private Set<Name> gone(Capabilities can) throws Trouble {
    if (!ledger.kept()) {
      return new Survey(server, can).gone(parcel, storedPatient());
    }
    Set<Name> sent = new HashSet<>(parcel.items().stream().map(Plan::name).toList());
    Set<Name> gone = new LinkedHashSet<>();
    for (Ledger.Line line : ledger.lines()) {
      Name name = new Name(line.type(), line.token());
      if (!line.withdrawn() && !sent.contains(name)) {
        gone.add(name);
      }
    }
    return gone;
  }

  private Optional<String> storedPatient() throws Trouble {
    Optional<Parcel.Item> patient = parcel.patient();
    if (patient.isEmpty()) {
      return Optional.empty();
    }
    Name name = Plan.name(patient.get());
    return Snapshot.of(server, List.of(name))
        .chosen(name, ledger)
        .map(stored -> stored.getIdElement().getIdPart());
  }

  private Set<Name> names(Set<Name> gone) {
    Set<Name> names = new LinkedHashSet<>();
    parcel.items().forEach(item -> names.add(Plan.name(item)));
    names.addAll(gone);
    return names;
  }

  /** The Provenance still to be written; empty when it is there already. */
  private Optional<Trace> trace(Capabilities can, Plan plan, String digest) throws Trouble {
    Trace trace = new Trace(plan, digest, clock.instant());
    if (!can.keeps("Provenance") || !trace.isPossible()) {
      return Optional.empty();
    }
    try {
      Name name = new Name("Provenance", trace.token());
      boolean there = !Snapshot.of(server, List.of(name)).all(name).isEmpty();
      return there ? Optional.empty() : Optional.of(trace);
    } catch (Trouble e) {
      if (e.difficulty() != Difficulty.REFUSED) {
        throw e;
      }
      // No search by tag: a Provenance for each delivery that changes something.
      return plan.isEmpty() ? Optional.empty() : Optional.of(trace);
    }
  }

  private Way write(Plan plan, Optional<Trace> trace, Capabilities can) throws Trouble {
    if (can.transaction()) {
      return transaction(plan, trace, can);
    }
    Piecemeal pieces = new Piecemeal(server, can, can.batch());
    written = pieces.written();
    pieces.write(plan, trace);
    return can.batch() ? Way.BATCHES : Way.SINGLE;
  }

  private Way transaction(Plan plan, Optional<Trace> trace, Capabilities can) throws Trouble {
    WholeBundle whole = new WholeBundle(server);
    if (can.takesConditions(plan.types())) {
      try {
        whole.write(plan, trace, true);
        return Way.CONDITIONAL_TRANSACTION;
      } catch (Trouble e) {
        // Some take conditions in small Bundles only and refuse larger ones whole, with a 400.
        if (e.status() != 400 && e.status() != 413) {
          throw e;
        }
      }
    }
    whole.write(plan, trace, false);
    return Way.TRANSACTION;
  }

  private DeliveryReport verified(Plan plan, Set<Name> gone, Way way, String digest)
      throws Trouble {
    for (int tried = 1; ; tried++) {
      Snapshot after = Snapshot.of(server, names(gone));
      Trouble missing =
          new Trouble(Difficulty.FAILED, "The server does not find what it has just stored");
      boolean all = parcel.items().stream().noneMatch(item -> after.all(Plan.name(item)).isEmpty());
      if (all || !server.mayTryAgain(missing, tried)) {
        return report(plan, after, gone, way, digest);
      }
    }
  }

  private DeliveryReport report(Plan plan, Snapshot held, Set<Name> gone, Way way, String digest) {
    Reporting reporting = new Reporting(plan, held, ledger, likeness);
    parcel.items().forEach(reporting::sent);
    for (Name name : gone) {
      List<Resource> stored = held.all(name);
      if (!stored.isEmpty()) {
        reporting.gone(name, stored.get(0));
      }
    }
    return reporting.report(server.base(), way, digest);
  }
}
