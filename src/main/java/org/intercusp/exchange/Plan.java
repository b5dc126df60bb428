package org.intercusp.exchange;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.DeliveryReport.Difference;
import org.intercusp.exchange.DeliveryReport.Outcome;
import org.intercusp.exchange.Likeness.Gap;
import org.intercusp.exchange.Parcel.Item;
import org.intercusp.exchange.Snapshot.Name;
import org.intercusp.fhir.Withdrawal;

/**
 * What has to be written so that a server that holds the snapshot comes to hold the parcel: only
 * what is absent or says something else, and the marks on what went away.
 */
final class Plan {

  private final Parcel parcel;
  private final Snapshot snapshot;
  private final Ledger ledger;
  private final Likeness likeness;
  private final List<Parcel> perhaps;
  private final Set<String> left;
  private final Map<String, String> known = new HashMap<>();
  private final Map<Name, Outcome> outcomes = new HashMap<>();
  private final List<Item> creates = new ArrayList<>();
  private final List<Change> changes = new ArrayList<>();
  private final List<Difference> conflicts = new ArrayList<>();

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
   * @param perhaps what the server may have been brought before without anybody hearing of it
   * @param left {@code Patient/id} of those that the server's people merged into another
   */
  Plan(
      Parcel parcel,
      Snapshot snapshot,
      Set<Name> gone,
      Ledger ledger,
      Likeness likeness,
      List<Parcel> perhaps,
      Set<String> left) {
    this.perhaps = perhaps;
    this.left = left;
    this.parcel = parcel;
    this.snapshot = snapshot;
    this.ledger = ledger;
    this.likeness = likeness;
    perhaps.forEach(this::know);
    know(parcel);
    parcel.items().forEach(this::consider);
    gone.forEach(this::mark);
  }

  private void know(Parcel one) {
    for (Item item : one.items()) {
      snapshot
          .chosen(name(item), ledger)
          .ifPresent(stored -> known.put(item.urn(), address(stored)));
    }
  }

  static Name name(Item item) {
    return new Name(item.type(), item.token());
  }

  static String address(Resource stored) {
    return stored.fhirType() + "/" + stored.getIdElement().getIdPart();
  }

  private void consider(Item item) {
    Optional<Resource> found = snapshot.chosen(name(item), ledger);
    if (found.isEmpty()) {
      creates.add(item);
      outcomes.put(name(item), Outcome.CREATED);
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
    }
    return Outcome.UPDATED;
  }

  /** Whether it is what an earlier try of ours left, of which nobody heard. */
  private boolean isOurs(Name name, Resource stored) {
    for (Parcel earlier : perhaps) {
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

  /** Where the server's people and the clinic both changed the same. */
  List<Difference> conflicts() {
    return conflicts;
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
