package org.intercusp.exchange.records;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.DeliveryReport.Difference;
import org.intercusp.exchange.records.DeliveryReport.Outcome;
import org.intercusp.exchange.records.DeliveryResult.Conflicting;
import org.intercusp.exchange.records.Likeness.Gap;
import org.intercusp.exchange.records.Parcel.Item;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.records.Survivors.Followed;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Token;
import org.intercusp.fhir.Withdrawal;
import org.jspecify.annotations.Nullable;

/**
 * What has to be written so that a server that holds the snapshot comes to hold the parcel: only
 * what is absent or says something else, and the marks on what went away.
 */
final class Plan {

  private final Parcel parcel;
  private final Snapshot snapshot;
  private final Ledger ledger;
  private final Likeness likeness;
  private final List<Parcel> perhapsHeld;
  private final Set<String> left;
  private final List<Ledger.Line> missing;
  private final Map<String, String> known = new HashMap<>();
  private final Map<Name, Outcome> outcomes = new HashMap<>();
  private final List<Item> creates = new ArrayList<>();
  private final List<Change> changes = new ArrayList<>();
  private final List<Difference> conflicts = new ArrayList<>();
  private final List<Beyond> theirs = new ArrayList<>();
  private final List<Origin> origins = new ArrayList<>();
  private final List<Ledger.Line> deleted = new ArrayList<>();
  private final Map<String, Item> leftDeleted = new HashMap<>();

  /**
   * A stored resource to be replaced.
   *
   * @param item what takes its place; absent for a mark
   * @param stored what is there now
   * @param marked what takes its place when the element went away
   */
  record Change(Name name, Optional<Item> item, Resource stored, Optional<Resource> marked) {}

  /**
   * A plan.
   *
   * @param gone what was delivered once and is no longer in the parcel
   * @param perhapsHeld what the server may have been brought before without anybody hearing of it
   * @param patient who stands for ours there now, and whom the server's people merged into them
   */
  Plan(
      Parcel parcel,
      Snapshot snapshot,
      Set<Name> gone,
      Ledger ledger,
      Likeness likeness,
      List<Parcel> perhapsHeld,
      Followed patient) {
    this.perhapsHeld = perhapsHeld;
    this.left = patient.left();
    this.missing = Deleted.of(ledger, snapshot, patient);
    this.parcel = parcel;
    this.snapshot = snapshot;
    this.ledger = ledger;
    this.likeness = likeness;
    perhapsHeld.forEach(this::know);
    know(parcel);
    parcel.items().forEach(this::consider);
    gone.forEach(this::mark);
  }

  private void know(Parcel one) {
    for (Item item : one.items()) {
      snapshot
          .chosen(name(item), ledger)
          .ifPresent(stored -> known.put(item.urn(), Place.of(stored)));
    }
  }

  static Name name(Item item) {
    return new Name(item.type(), item.token());
  }

  private void consider(Item item) {
    Optional<Resource> found = snapshot.chosen(name(item), ledger);
    if (found.isEmpty()) {
      absent(item);
      return;
    }
    Resource stored = found.get();
    List<Gap> gaps = likeness.gaps(item.resource(), known, stored);
    Outcome outcome = item.shared() ? Outcome.KEPT : judge(item, stored, gaps);
    outcomes.put(name(item), outcome);
    if (outcome == Outcome.UPDATED) {
      changes.add(new Change(name(item), Optional.of(item), stored, Optional.empty()));
    }
  }

  /** Nothing is found: it never was there, or the server's people deleted it. */
  private void absent(Item item) {
    Optional<Ledger.Line> before =
        missing.stream().filter(line -> Deleted.name(line).equals(name(item))).findFirst();
    Ledger.Deletion decided = before.map(Ledger.Line::deletion).orElse(Ledger.Deletion.AGAIN);
    switch (decided) {
      case AGAIN -> {
        creates.add(item);
        outcomes.put(name(item), Outcome.CREATED);
      }
      case LEFT -> {
        leftDeleted.put(item.urn(), item);
        outcomes.put(name(item), Outcome.LEFT);
      }
      case UNDECIDED -> deleted.add(before.orElseThrow());
    }
  }

  private Outcome judge(Item item, Resource stored, List<Gap> gaps) {
    boolean alike = gaps.stream().allMatch(Gap::precise);
    boolean strayed = !left.isEmpty() && parcel.places(stored).stream().anyMatch(left::contains);
    if (alike) {
      return strayed ? Outcome.UPDATED : Outcome.UNCHANGED;
    }
    Optional<Ledger.Line> line =
        ledger.line(item.type(), item.token()).filter(one -> !one.withdrawn());
    if (line.isEmpty()) {
      return Outcome.UPDATED;
    }
    boolean ours = isOurs(name(item), stored);
    boolean untouched = ours || line.get().stored().equals(likeness.digest(stored));
    if (!ours && line.get().sent().equals(likeness.digest(item.resource()))) {
      // As delivered before: the server keeps it in its own way, or somebody there changed it. Only
      // what is still with a Patient that was merged into another has to follow.
      return strayed && untouched ? Outcome.UPDATED : Outcome.UNCHANGED;
    }
    if (!untouched) {
      gaps.forEach(gap -> conflicts.add(difference(name(item), gap)));
      String there = Place.of(stored);
      gaps.forEach(gap -> theirs.add(new Beyond(there + "." + gap.path(), shown(gap.stored()))));
      origins.add(Origin.of(stored, likeness, ledger));
    }
    return Outcome.UPDATED;
  }

  private static String shown(@Nullable String stored) {
    return stored == null ? "not there" : stored;
  }

  /** Whether it is what an earlier try of ours left, of which nobody heard. */
  private boolean isOurs(Name name, Resource stored) {
    for (Parcel earlier : perhapsHeld) {
      boolean without = earlier.items().stream().noneMatch(item -> name(item).equals(name));
      if (without && Withdrawal.isWithdrawn(stored)) {
        return true;
      }
      for (Item item : earlier.items()) {
        if (name(item).equals(name)
            && likeness.gaps(item.resource(), known, stored).stream().allMatch(Gap::precise)) {
          return true;
        }
      }
    }
    return false;
  }

  /** Whether people or organisations are to be created that other patients' treatments share. */
  boolean createsShared() {
    return creates.stream().anyMatch(item -> item.shared() && !item.type().equals("Patient"));
  }

  private void mark(Name name) {
    for (Resource stored : snapshot.all(name)) {
      if (!Withdrawal.isWithdrawn(stored)) {
        Resource marked = Withdrawal.of(stored);
        changes.add(new Change(name, Optional.empty(), stored, Optional.of(marked)));
        outcomes.put(name, Outcome.MARKED);
      }
    }
  }

  static Difference difference(Name name, Gap gap) {
    Token token = name.token();
    return new Difference(
        name.type(), token.system(), token.value(), gap.path(), gap.sent(), gap.stored());
  }

  Parcel parcel() {
    return parcel;
  }

  /** {@code Type/id} of what is stored already, by urn. */
  Map<String, String> known() {
    return known;
  }

  List<Item> creates() {
    return creates;
  }

  List<Change> changes() {
    return changes;
  }

  /** Whether the server's people changed what the clinic changed too, or deleted something. */
  boolean isConflict() {
    return !conflicts.isEmpty() || !deleted.isEmpty();
  }

  /** What a person has to decide on before anything is written. */
  Conflicting conflict() {
    return new Conflicting(conflicts, theirs, origins, deleted);
  }

  /** Whether something of the parcel is not on the server. */
  boolean lacks() {
    return !creates.isEmpty() || !deleted.isEmpty() || !leftDeleted.isEmpty();
  }

  /** What stays deleted there, as somebody decided, by urn. */
  Map<String, Item> leftDeleted() {
    return leftDeleted;
  }

  /** A resource of the parcel with its references to what is stored, as {@link Parcel} makes it. */
  Resource addressed(Item item, Map<String, String> where, Set<String> loose) {
    return parcel.addressed(item, where, loose, leftDeleted);
  }

  Map<Name, Outcome> outcomes() {
    return outcomes;
  }

  boolean isEmpty() {
    return creates.isEmpty() && changes.isEmpty();
  }

  /** The types of what has to be written. */
  Set<String> types() {
    Set<String> types = new HashSet<>();
    creates.forEach(item -> types.add(item.type()));
    changes.forEach(change -> types.add(change.name().type()));
    return types;
  }
}
