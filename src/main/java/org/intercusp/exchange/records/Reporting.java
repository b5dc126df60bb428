package org.intercusp.exchange.records;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.records.DeliveryReport.Difference;
import org.intercusp.exchange.records.DeliveryReport.Duplicate;
import org.intercusp.exchange.records.DeliveryReport.Entry;
import org.intercusp.exchange.records.DeliveryReport.Outcome;
import org.intercusp.exchange.records.DeliveryReport.Way;
import org.intercusp.exchange.records.Ledger.Holder;
import org.intercusp.exchange.records.Likeness.Gap;
import org.intercusp.exchange.records.Parcel.Item;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.wire.Place;
import org.intercusp.exchange.wire.Token;
import org.jspecify.annotations.Nullable;

/** What is found on a server after a delivery, held against what was sent. */
final class Reporting {

  private final Plan plan;
  private final Snapshot held;
  private final Ledger ledger;
  private final Likeness likeness;
  private final Map<String, String> addresses = new HashMap<>();
  private final List<Entry> entries = new ArrayList<>();
  private final List<Difference> differences = new ArrayList<>();
  private final List<Duplicate> duplicates = new ArrayList<>();
  private final List<Ledger.Line> lines = new ArrayList<>();

  Reporting(Plan plan, Snapshot held, Ledger ledger, Likeness likeness) {
    this.plan = plan;
    this.held = held;
    this.ledger = ledger;
    this.likeness = likeness;
    for (Item item : plan.parcel().items()) {
      held.chosen(Plan.name(item), ledger)
          .ifPresent(stored -> addresses.put(item.urn(), Place.of(stored)));
    }
    ledger.lines().stream().filter(Ledger.Line::withdrawn).forEach(lines::add);
  }

  void sent(Item item) {
    Name name = Plan.name(item);
    Optional<Resource> found = held.chosen(name, ledger);
    if (found.isEmpty()) {
      absent(item);
      return;
    }
    Resource stored = found.get();
    Outcome outcome = plan.outcomes().getOrDefault(name, Outcome.UNCHANGED);
    entries.add(entry(name, stored, outcome));
    List<Gap> gaps = likeness.gaps(item.resource(), addresses, stored);
    for (Gap gap : gaps) {
      // What a shared resource says beyond ours is the server's own business.
      if (!item.shared() || gap.sent() != null) {
        differences.add(Plan.difference(name, gap));
      }
    }
    List<String> ids = held.all(name).stream().map(one -> one.getIdElement().getIdPart()).toList();
    if (ids.size() > 1) {
      duplicates.add(new Duplicate(name.type(), name.token().system(), name.token().value(), ids));
    }
    if (!item.shared()) {
      remember(item, stored, outcome, gaps.stream().allMatch(Gap::precise));
    }
  }

  private void absent(Item item) {
    Name name = Plan.name(item);
    Optional<Ledger.Line> before = ledger.line(item.type(), item.token());
    if (plan.outcomes().get(name) == Outcome.LEFT && before.isPresent()) {
      Token token = name.token();
      String id = before.get().id();
      entries.add(new Entry(name.type(), token.system(), token.value(), id, null, Outcome.LEFT));
      lines.add(before.get());
    } else {
      entries.add(entry(name, null, Outcome.MISSING));
    }
  }

  private void remember(Item item, Resource stored, Outcome outcome, boolean alike) {
    Name name = Plan.name(item);
    Optional<Ledger.Line> before = ledger.line(item.type(), item.token());
    lines.removeIf(line -> line.type().equals(item.type()) && line.token().equals(item.token()));
    // Left as somebody there made it: their change must still be seen when ours comes.
    boolean theirs = outcome == Outcome.UNCHANGED && !alike && before.isPresent();
    String digest = theirs ? before.get().stored() : likeness.digest(stored);
    lines.add(line(name, stored, likeness.digest(item.resource()), digest, false));
  }

  void gone(Name name, Resource stored) {
    Outcome outcome = plan.outcomes().getOrDefault(name, Outcome.UNCHANGED);
    if (outcome == Outcome.MARKED) {
      entries.add(entry(name, stored, outcome));
    }
    String digest = likeness.digest(stored);
    lines.add(line(name, stored, digest, digest, true));
  }

  DeliveryReport report(String server, Way way, String digest, @Nullable Holder patient) {
    Ledger left = new Ledger(ledger.kept(), lines, patient);
    return new DeliveryReport(server, way, entries, differences, duplicates, digest, left);
  }

  private static Entry entry(Name name, @Nullable Resource stored, Outcome outcome) {
    Token token = name.token();
    return new Entry(
        name.type(),
        token.system(),
        token.value(),
        stored == null ? null : stored.getIdElement().getIdPart(),
        stored == null ? null : stored.getMeta().getVersionId(),
        outcome);
  }

  private static Ledger.Line line(
      Name name, Resource stored, String sent, String digest, boolean withdrawn) {
    Token token = name.token();
    return new Ledger.Line(
        name.type(),
        token.parameter(),
        token.system(),
        token.value(),
        stored.getIdElement().getIdPart(),
        sent,
        digest,
        withdrawn,
        Ledger.Deletion.UNDECIDED);
  }
}
