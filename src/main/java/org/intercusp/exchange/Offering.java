package org.intercusp.exchange;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.exchange.Comparing.Found;
import org.intercusp.exchange.Comparing.Part;
import org.intercusp.exchange.Proposal.Beyond;
import org.intercusp.exchange.Proposal.Change;
import org.intercusp.exchange.Proposal.Content;
import org.intercusp.exchange.Proposal.Kind;
import org.intercusp.exchange.Proposal.State;
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
    List<Proposal> before =
        rows.of(subject.key()).stream()
            .filter(one -> one.recipient().equals(subject.recipient()))
            .toList();
    List<Proposal> unreadable =
        before.stream().filter(one -> one.kind() == Kind.UNREADABLE && one.standing()).toList();
    if (!found.faults().isEmpty()) {
      unreadable(subject, found.faults(), unreadable);
      return;
    }
    unreadable.forEach(one -> overtake(one, "It can be read again"));
    changes(subject, found.parts(), before);
    beyond(subject, found.beyond(), before);
  }

  private void unreadable(Subject subject, List<String> faults, List<Proposal> before) {
    String what = "unreadable " + Likeness.digest(String.join("\n", faults));
    if (before.stream().noneMatch(one -> one.subject().equals(what))) {
      before.forEach(one -> overtake(one, "Something else can't be read by now"));
      List<Beyond> listed = faults.stream().map(one -> new Beyond(one, "")).toList();
      add(subject, Kind.UNREADABLE, what, new Content(List.of(), listed, List.of()));
    }
  }

  private void changes(Subject subject, List<Part> parts, List<Proposal> before) {
    Set<String> present = new HashSet<>();
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
    for (Part part : parts) {
      List<Change> fresh =
          part.changes().stream()
              .filter(one -> !decided.containsAll(one.keys()))
              .filter(
                  one ->
                      !Placing.same(
                          Placing.at(subject.file(), one.path()).orElse(null), one.after()))
              .toList();
      Optional<Proposal> asked = open.stream().filter(one -> isSame(one, part, fresh)).findFirst();
      asked.ifPresent(open::remove);
      if (asked.isEmpty() && !fresh.isEmpty()) {
        add(
            subject,
            Kind.CHANGE,
            part.subject(),
            new Content(fresh, part.beyond(), part.origins()));
      }
    }
    open.forEach(one -> overtake(one, "Something newer took its place, or the file says the same"));
  }

  private static boolean isSame(Proposal open, Part part, List<Change> fresh) {
    return open.subject().equals(part.subject())
        && new HashSet<>(open.content().changes().stream().map(Change::path).toList())
            .equals(new HashSet<>(fresh.stream().map(Change::path).toList()))
        && new HashSet<>(open.keys())
            .equals(new HashSet<>(fresh.stream().flatMap(one -> one.keys().stream()).toList()));
  }

  private void beyond(Subject subject, List<Beyond> found, List<Proposal> before) {
    Set<Beyond> listed = new HashSet<>();
    before.stream()
        .filter(one -> one.kind() == Kind.BEYOND)
        .forEach(one -> listed.addAll(one.content().beyond()));
    List<Beyond> fresh = found.stream().filter(one -> !listed.contains(one)).distinct().toList();
    if (!fresh.isEmpty()) {
      add(subject, Kind.BEYOND, "no place", new Content(List.of(), fresh, List.of()));
    }
  }

  /** Says once that two patients became one there. */
  void merged(Subject subject, Ledger.Holder holder) {
    String what = String.join(", ", holder.merged()) + " into " + holder.id();
    boolean said =
        rows.of(subject.key()).stream()
            .anyMatch(
                one ->
                    one.kind() == Kind.MERGED
                        && one.recipient().equals(subject.recipient())
                        && one.subject().equals(what));
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
