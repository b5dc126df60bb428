package org.intercusp.exchange.records;

import java.time.Clock;
import java.time.Duration;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.DeliveryReport.Way;
import org.intercusp.exchange.records.DeliveryResult.Delivered;
import org.intercusp.exchange.records.DeliveryResult.Failed;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.wire.Capabilities;
import org.intercusp.exchange.wire.Difficulty;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Past;
import org.intercusp.exchange.wire.Trouble;
import org.intercusp.fhir.Canonicals;

/**
 * One delivery: look, plan, write what is missing, look again. When a write comes to an end that
 * leaves open whether it was done, the next round looks before it writes.
 */
final class Delivering {

  /** Clocks and roundings aside: common practice, no source. */
  private static final Duration A_MOMENT = Duration.ofMillis(50);

  private final FhirServer server;
  private final Parcel parcel;
  private final Ledger ledger;
  private final Canonicals canonicals;
  private final boolean mayCreate;
  private final Clock clock;
  private final List<Parcel> perhapsHeld;
  private Likeness likeness;
  private Survivors.Followed followed = new Survivors.Followed(List.of(), List.of());
  private boolean sole;

  /** Whether the server refused a Bundle with conditions in this call, whatever it declares. */
  private boolean refusesConditions;

  private List<String> written = List.of();

  Delivering(
      FhirServer server,
      Parcel parcel,
      Ledger ledger,
      Canonicals canonicals,
      boolean mayCreate,
      Clock clock) {
    this.canonicals = canonicals;
    this.mayCreate = mayCreate;
    this.server = server;
    this.parcel = parcel;
    this.ledger = ledger;
    this.clock = clock;
    this.likeness = new Likeness(server.text(), server.base());
    this.perhapsHeld =
        server.past().perhapsHeld().stream()
            .map(bundle -> Parcel.of(server.text().context(), bundle))
            .toList();
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
    int tried = 1;
    while (true) {
      Set<Name> gone = gone(can);
      Snapshot before = held(gone);
      Plan plan = new Plan(parcel, before, gone, ledger, likeness, perhapsHeld, followed);
      if (!mayCreate && plan.lacks()) {
        throw new Trouble(
            Difficulty.UNSUITABLE, "The server no longer holds what it would be told about");
      }
      if (plan.isConflict()) {
        return plan.conflict();
      }
      Optional<Trace> trace = trace(can, plan, digest);
      if (plan.isEmpty() && trace.isEmpty()) {
        return new Delivered(report(plan, before, gone, way, digest));
      }
      if (wantsToBeSole(plan, can)) {
        continue;
      }
      boolean conditions = takesConditions(plan, can);
      try {
        mayWriteNow(plan, can);
        way = write(plan, trace, can);
        return new Delivered(verified(plan, gone, way, digest));
      } catch (Trouble e) {
        if (conditions && refusesConditions) {
          // What follows is a write without conditions: all that is asked before such a one comes
          // first.
          continue;
        }
        if (!server.mayTryAgain(e, tried)) {
          throw e;
        }
        tried++;
      }
    }
  }

  // Where the server knows no conditions, nobody else must create the same people meanwhile: with
  // that certain, it is looked again.
  private boolean wantsToBeSole(Plan plan, Capabilities can) {
    if (sole || takesConditions(plan, can) || !plan.createsShared()) {
      return false;
    }
    sole = server.past().sole().getAsBoolean();
    return sole;
  }

  private void mayWriteNow(Plan plan, Capabilities can) throws Trouble {
    Past past = server.past();
    boolean conditions = takesConditions(plan, can);
    boolean before = !past.settled().isOver() && !(conditions && past.repeatable());
    if (before || (server.isUnheard() && !conditions)) {
      throw new Trouble(
          Difficulty.UNSETTLED,
          "A write had no answer, and the server may still carry it out: nothing is sent again"
              + " before that is settled",
          0,
          "",
          before ? past.settled().left().plus(A_MOMENT) : null);
    }
    if (!conditions && plan.createsShared() && !sole) {
      throw new Trouble(
          Difficulty.CONTENDED, "Another delivery brings the same people or organisations");
    }
  }

  private boolean takesConditions(Plan plan, Capabilities can) {
    return !refusesConditions && can.transaction() && can.takesConditions(plan.types());
  }

  private Set<Name> gone(Capabilities can) throws Trouble {
    if (!ledger.kept()) {
      return new Leftovers(new Survey(server, can)).gone(parcel, storedPatient());
    }
    Set<Name> sent = new HashSet<>(parcel.items().stream().map(Plan::name).toList());
    Set<Name> gone = new LinkedHashSet<>();
    for (Parcel earlier : perhapsHeld) {
      earlier.items().stream().filter(one -> !one.shared()).map(Plan::name).forEach(gone::add);
    }
    gone.removeAll(sent);
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

  /** What is there, with the Patient that stands for ours now. */
  private Snapshot held(Set<Name> gone) throws Trouble {
    Snapshot held = Snapshot.of(server, names(gone));
    Optional<Parcel.Item> patient = parcel.patient();
    if (patient.isEmpty()) {
      return held;
    }
    Name name = Plan.name(patient.get());
    Survivors survivors = new Survivors(server);
    followed = survivors.of(name, held.all(name), ledger.patient());
    if (ledger.kept() && !Deleted.isTheSame(ledger, held, followed)) {
      // Emptied or replaced: the Patient of before was not merged into the one that is there now.
      followed = survivors.of(name, held.all(name), null);
    }
    likeness = likeness.with(followed.same());
    return held.with(name, followed.standing());
  }

  private Set<Name> names(Set<Name> gone) {
    Set<Name> names = new LinkedHashSet<>();
    parcel.items().forEach(item -> names.add(Plan.name(item)));
    names.addAll(gone);
    perhapsHeld.forEach(one -> one.items().forEach(item -> names.add(Plan.name(item))));
    return names;
  }

  /** The Provenance still to be written; empty when it is there already. */
  private Optional<Trace> trace(Capabilities can, Plan plan, String digest) throws Trouble {
    Trace trace = new Trace(plan, canonicals, digest, clock.instant());
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
    boolean conditions = takesConditions(plan, can);
    try {
      new WholeBundle(server).write(plan, trace, conditions);
    } catch (Trouble e) {
      // Some take conditions in small Bundles only and refuse larger ones whole.
      refusesConditions |= conditions && (e.status() == 400 || e.status() == 413);
      throw e;
    }
    return conditions ? Way.CONDITIONAL_TRANSACTION : Way.TRANSACTION;
  }

  private DeliveryReport verified(Plan plan, Set<Name> gone, Way way, String digest)
      throws Trouble {
    for (int tried = 1; ; tried++) {
      Snapshot after = held(gone);
      Trouble missing =
          new Trouble(Difficulty.FAILED, "The server does not find what it has just stored");
      boolean all =
          parcel.items().stream()
              .filter(item -> !plan.leftDeleted().containsKey(item.urn()))
              .noneMatch(item -> after.all(Plan.name(item)).isEmpty());
      if (all) {
        return report(plan, after, gone, way, digest);
      }
      if (!server.mayTryAgain(missing, tried)) {
        throw new Trouble(
            Difficulty.UNDECIDED,
            "The server took what was sent and does not find it: what it holds cannot be told");
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
    Ledger.Holder holder =
        parcel.patient().map(one -> followed.holder(one.token())).orElse(ledger.patient());
    return reporting.report(server.base(), way, digest, holder);
  }
}
