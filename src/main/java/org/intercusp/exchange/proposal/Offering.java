package org.intercusp.exchange.proposal;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.Set;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.exchange.proposal.Comparing.Aside;
import org.intercusp.exchange.proposal.Comparing.Found;
import org.intercusp.exchange.proposal.Comparing.Part;
import org.intercusp.exchange.proposal.Proposal.Change;
import org.intercusp.exchange.proposal.Proposal.Content;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposal.State;
import org.intercusp.exchange.records.Beyond;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.Likeness;
import org.intercusp.exchange.records.Origin;
import tools.jackson.databind.JsonNode;

/**
 * Makes proposals of what was found at a recipient, each once: what was decided stays decided until
 * the recipient's content is another. To be used in a transaction of one treatment, by whoever
 * holds its row.
 */
final class Offering {

  private final ProposalRows rows;
  private final AuditTrail trail;
  private final Clock clock;

  Offering(ProposalRows rows, AuditTrail trail, Clock clock) {
    this.rows = rows;
    this.trail = trail;
    this.clock = clock;
  }

  /**
   * What is looked at.
   *
   * @param base the version last delivered
   * @param file the newest version
   */
  record Subject(String recipient, TreatmentKey key, int base, JsonNode file) {}

  /** Takes in what was found. */
  void offer(Subject subject, Found found) {
    List<Proposal> before = before(subject);
    List<Proposal> unreadable =
        before.stream().filter(one -> one.kind() == Kind.UNREADABLE && one.standing()).toList();
    if (!found.faults().isEmpty()) {
      unreadable(subject, found.faults(), unreadable);
      return;
    }
    unreadable.forEach(one -> overtake(one, "It can be read again"));
    List<Aside> beyond = new ArrayList<>(found.beyond());
    beyond.addAll(changes(subject, found, before));
    beyond(subject, beyond, before);
  }

  /** What was proposed of the treatment from this recipient, the newest first. */
  private List<Proposal> before(Subject subject) {
    return rows.of(subject.key()).stream()
        .filter(one -> one.recipient().equals(subject.recipient()))
        .toList();
  }

  private void unreadable(Subject subject, List<String> faults, List<Proposal> before) {
    String what = "unreadable " + Likeness.digest(String.join("\n", faults));
    if (before.stream().noneMatch(one -> one.subject().equals(what))) {
      before.forEach(one -> overtake(one, "Something else can't be read by now"));
      List<Beyond> listed = faults.stream().map(one -> new Beyond(one, "")).toList();
      add(subject, Kind.UNREADABLE, what, new Content(List.of(), listed, List.of()));
    }
  }

  /** Gives back what has no place in resources of which all else was proposed before. */
  private List<Aside> changes(Subject subject, Found found, List<Proposal> before) {
    List<Part> parts = found.parts();
    Set<String> present = new HashSet<>(found.settled());
    parts.forEach(part -> part.changes().forEach(one -> present.addAll(one.keys())));
    Set<String> decided = new HashSet<>();
    Set<Proposal> open = new HashSet<>();
    for (Proposal one : before) {
      if (one.kind() == Kind.CHANGE && one.standing()) {
        if (one.keys().stream().noneMatch(present::contains)) {
          overtake(one, "The recipient no longer says so");
        } else if (one.state() == State.OPEN) {
          open.add(one);
        } else if (one.state() != State.OVERTAKEN) {
          decided.addAll(one.keys());
        }
      }
    }
    List<Aside> rest = new ArrayList<>();
    for (Part part : parts) {
      List<Change> fresh = fresh(subject, part, decided, before);
      Optional<Proposal> asked = open.stream().filter(one -> isSame(one, part, fresh)).findFirst();
      asked.ifPresent(open::remove);
      if (fresh.isEmpty() || asked.isPresent()) {
        // What was added since the change was proposed.
        part.origins().stream()
            .filter(one -> !isKnown(one, before))
            .forEach(one -> part.beyond().forEach(each -> rest.add(new Aside(each, one))));
      }
      if (asked.isEmpty() && !fresh.isEmpty()) {
        add(
            subject,
            Kind.CHANGE,
            part.subject(),
            new Content(fresh, part.beyond(), part.origins()));
      }
    }
    open.forEach(one -> overtake(one, "Something newer took its place, or the file says the same"));
    return rest;
  }

  private static List<Change> fresh(
      Subject subject, Part part, Set<String> decided, List<Proposal> before) {
    List<Change> others =
        part.changes().stream()
            .filter(
                one ->
                    !Placing.same(Placing.at(subject.file(), one.path()).orElse(null), one.after()))
            .toList();
    List<Change> fresh = others.stream().filter(one -> !decided.containsAll(one.keys())).toList();
    // Declined, written over by a delivery, and there once more: the next delivery is held by it,
    // so there has to be something to decide on.
    boolean again =
        fresh.isEmpty()
            && part.beyond().isEmpty()
            && part.origins().stream().anyMatch(one -> !isKnown(one, before));
    return again ? others : fresh;
  }

  /** Whether a resource of ours, as it is now, has been proposed; others need not be. */
  private static boolean isKnown(Origin origin, List<Proposal> before) {
    return origin.own() == null
        || before.stream()
            .filter(one -> one.state() != State.OVERTAKEN)
            .flatMap(one -> one.content().origins().stream())
            .anyMatch(origin::isSame);
  }

  private static boolean isSame(Proposal open, Part part, List<Change> fresh) {
    return open.subject().equals(part.subject())
        && new HashSet<>(open.content().changes().stream().map(Change::path).toList())
            .equals(new HashSet<>(fresh.stream().map(Change::path).toList()))
        && new HashSet<>(open.keys())
            .equals(new HashSet<>(fresh.stream().flatMap(one -> one.keys().stream()).toList()));
  }

  private void beyond(Subject subject, List<Aside> found, List<Proposal> before) {
    Set<Beyond> listed = new HashSet<>();
    before.stream()
        .filter(one -> one.kind() == Kind.BEYOND)
        .forEach(one -> listed.addAll(one.content().beyond()));
    List<Aside> fresh = new ArrayList<>(found);
    fresh.removeIf(one -> listed.contains(one.what()));
    Set<Origin> shown = new HashSet<>();
    fresh.forEach(one -> shown.add(one.origin()));
    for (Aside one : found) {
      // Listed before, but not as the resource is now: that holds the next delivery too.
      Origin origin = one.origin();
      if (origin != null && !shown.contains(origin) && !isKnown(origin, before)) {
        fresh.add(one);
      }
    }
    if (!fresh.isEmpty()) {
      List<Beyond> what = fresh.stream().map(Aside::what).distinct().toList();
      List<Origin> origins =
          fresh.stream().map(Aside::origin).filter(Objects::nonNull).distinct().toList();
      add(subject, Kind.BEYOND, "no place", new Content(List.of(), what, origins));
    }
  }

  /** Lists what the recipient's people changed where nothing else proposes it. */
  void listed(Subject subject, Content theirs) {
    List<Proposal> before = before(subject);
    if (theirs.origins().stream().anyMatch(one -> !isKnown(one, before))) {
      add(subject, Kind.BEYOND, "no place", theirs);
    }
  }

  /** Asks what is to become of what the recipient's people deleted; of each once at a time. */
  void deleted(Subject subject, List<Ledger.Line> lines) {
    Set<Ledger.Name> asked = new HashSet<>();
    deletions(subject).forEach(one -> asked.addAll(names(one)));
    List<Ledger.Line> fresh =
        lines.stream()
            .filter(line -> line.deletion() == Ledger.Deletion.UNDECIDED)
            .filter(line -> !asked.contains(line.name()))
            .toList();
    if (!fresh.isEmpty()) {
      List<Beyond> what =
          fresh.stream().map(one -> new Beyond(one.type() + "/" + one.id(), one.value())).toList();
      add(
          subject,
          Kind.DELETED,
          "deleted",
          new Content(List.of(), what, fresh.stream().map(Origin::of).toList()));
    }
  }

  /** Takes back the question where all that was deleted is there again. */
  void restored(Subject subject, List<Ledger.Line> stillDeleted) {
    Set<Ledger.Name> gone = new HashSet<>();
    stillDeleted.forEach(line -> gone.add(line.name()));
    deletions(subject).stream()
        .filter(one -> names(one).stream().noneMatch(gone::contains))
        .forEach(one -> overtake(one, "It is there again"));
  }

  private List<Proposal> deletions(Subject subject) {
    return before(subject).stream()
        .filter(one -> one.kind() == Kind.DELETED && one.state() == State.OPEN)
        .toList();
  }

  private static List<Ledger.Name> names(Proposal deletion) {
    return deletion.content().origins().stream().map(Origin::own).filter(Objects::nonNull).toList();
  }

  /** Says once that two patients became one there. */
  void merged(Subject subject, Ledger.Holder holder) {
    String what = String.join(", ", holder.merged()) + " into " + holder.id();
    boolean said =
        before(subject).stream()
            .anyMatch(one -> one.kind() == Kind.MERGED && one.subject().equals(what));
    if (!said) {
      List<Beyond> listed =
          holder.otherSystem().isEmpty()
              ? List.of()
              : List.of(
                  new Beyond(
                      "Patient/" + holder.id() + ".identifier",
                      holder.otherSystem() + "|" + holder.otherValue()));
      add(subject, Kind.MERGED, what, new Content(List.of(), listed, List.of()));
    }
  }

  private void add(Subject subject, Kind kind, String what, Content content) {
    int number = rows.of(subject.key()).stream().mapToInt(Proposal::number).max().orElse(0) + 1;
    Proposal one =
        new Proposal(
            subject.key(),
            number,
            subject.recipient(),
            kind,
            State.OPEN,
            what,
            true,
            subject.base(),
            now(),
            null,
            "",
            null,
            "",
            content);
    rows.add(one);
    trail.done(Deed.CREATE, Proposals.thing(one), "proposed by recipient");
  }

  private void overtake(Proposal one, String reason) {
    rows.lapse(one);
    if (one.state() == State.OPEN) {
      rows.decide(one, State.OVERTAKEN, "", null, reason, now());
    }
  }

  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
