package org.intercusp.exchange.proposal;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.exchange.proposal.PollRows.Delivered;
import org.intercusp.exchange.queue.Lanes;
import org.intercusp.exchange.queue.LedgerRows;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.records.Ledger.Holder;
import org.intercusp.exchange.records.RecordsClient;
import org.intercusp.exchange.records.Snapshot;
import org.intercusp.exchange.records.Snapshot.Name;
import org.intercusp.exchange.records.Survey;
import org.intercusp.exchange.records.Survivors;
import org.intercusp.exchange.records.Survivors.Followed;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Token;
import org.intercusp.exchange.wire.Trouble;
import org.jspecify.annotations.Nullable;

/** Some patients, asked for together. */
final class Portion {

  /** How long a patient's lane is taken: longer than a call; common practice, no source. */
  private static final Duration LEASE = Duration.ofMinutes(3);

  private static final String BUSY = "Something is being delivered for a patient";

  private final Means means;
  private final Recipient recipient;
  private final @Nullable Instant since;
  private final FhirServer server;
  private final Survey survey;

  /**
   * What it works with.
   *
   * @param holder who takes lanes
   */
  record Means(
      RecordsClient client,
      PollRows rows,
      LedgerRows ledgers,
      Lanes lanes,
      Looking looking,
      String holder) {}

  /** A patient and what of theirs was delivered. */
  private record Known(List<Delivered> delivered, Token token, Followed patient) {

    boolean isOneOf(Set<String> ids) {
      return patient.merged().stream().anyMatch(ids::contains)
          || patient.standing().stream()
              .anyMatch(one -> ids.contains(one.getIdElement().getIdPart()));
    }

    /** The id of who stands for the patient there. */
    Optional<String> id() {
      return patient.patient().map(one -> one.getIdElement().getIdPart());
    }
  }

  Portion(Means means, Recipient recipient, @Nullable Instant since) throws Trouble {
    this.means = means;
    this.recipient = recipient;
    this.since = since;
    this.server = means.client().reader(recipient.target());
    this.survey = new Survey(server, server.capabilities());
  }

  String look(List<List<Delivered>> patients) throws Trouble {
    List<Known> known = known(patients);
    Set<String> ids = new LinkedHashSet<>();
    for (Known one : known) {
      ids.addAll(one.patient().merged());
      one.patient().standing().forEach(each -> ids.add(each.getIdElement().getIdPart()));
    }
    Set<String> touched = new LinkedHashSet<>(survey.touched(ids, since));
    touched.addAll(byDevices(known));
    String trouble = "";
    for (Known one : known) {
      boolean look = one.isOneOf(touched) || isNew(one) || one.patient().standing().isEmpty();
      if (look) {
        trouble = Poller.worse(trouble, alone(one));
      }
    }
    return trouble;
  }

  /** The patients of whom a device was changed, where no search by patient finds devices. */
  private Set<String> byDevices(List<Known> patients) throws Trouble {
    if (since == null || survey.findsDevices()) {
      return Set.of();
    }
    Map<String, String> whose = new LinkedHashMap<>();
    for (Known one : patients) {
      for (Delivered each : one.delivered()) {
        means.ledgers().read(recipient.name(), each.key()).lines().stream()
            .filter(line -> line.type().equals("Device") && !line.withdrawn())
            .forEach(line -> one.id().ifPresent(id -> whose.put(line.id(), id)));
      }
    }
    Set<String> patientsOf = new LinkedHashSet<>();
    survey.changed("Device", whose.keySet(), since).forEach(id -> patientsOf.add(whose.get(id)));
    return patientsOf;
  }

  /**
   * Looks for what was deleted, which no search for changes shows, and looks at the patients where
   * something was.
   */
  String round(List<List<Delivered>> patients) throws Trouble {
    String trouble = "";
    for (Known one : known(patients)) {
      server.anew();
      if (misses(one)) {
        String said = alone(one);
        // What is delivered meanwhile is held by what is missing; the next round comes by again.
        trouble = Poller.worse(trouble, said.equals(BUSY) ? "" : said);
      }
    }
    return trouble;
  }

  private boolean misses(Known one) throws Trouble {
    for (Delivered each : one.delivered()) {
      if (means.looking().misses(look(one, each))) {
        return true;
      }
    }
    return false;
  }

  private Looking.Look look(Known one, Delivered each) {
    return new Looking.Look(recipient, server, survey, each, one.patient(), one.token());
  }

  /** Whatever becomes of one patient, the others are looked at: only silence for all is thrown. */
  private String alone(Known one) throws Trouble {
    server.anew();
    try {
      return inLane(one);
    } catch (Trouble e) {
      server.anew();
      if (e.difficulty().isPassing()) {
        server.capabilities();
      }
      return e.reason();
    } catch (RuntimeException e) {
      return Poller.ours(e);
    }
  }

  /** Whether the Patient itself was changed, or is another than before. */
  private boolean isNew(Known one) {
    Holder before = means.ledgers().holder(recipient.name(), one.delivered().get(0).key());
    Holder now = one.patient().holder(one.token());
    boolean changed =
        since == null
            || one.patient().patient().filter(each -> Survey.isSince(each, since)).isPresent();
    return changed || !Objects.equals(before, now);
  }

  private List<Known> known(List<List<Delivered>> patients) throws Trouble {
    List<Token> tokens = new ArrayList<>();
    Set<Name> names = new LinkedHashSet<>();
    for (List<Delivered> ofOne : patients) {
      Delivered first = ofOne.get(0);
      Holder before = means.ledgers().holder(recipient.name(), first.key());
      Token token = before == null ? means.looking().patient(first) : before.token();
      tokens.add(token);
      names.add(new Name("Patient", token));
    }
    Snapshot found = Snapshot.of(server, names);
    List<Known> known = new ArrayList<>();
    for (int i = 0; i < patients.size(); i++) {
      Name name = new Name("Patient", tokens.get(i));
      Holder before = means.ledgers().holder(recipient.name(), patients.get(i).get(0).key());
      List<Resource> all = found.all(name);
      Followed followed = new Survivors(server).of(name, all, before);
      known.add(new Known(patients.get(i), tokens.get(i), followed));
    }
    return known;
  }

  private String inLane(Known one) throws Trouble {
    String patient = one.delivered().get(0).patient();
    means.lanes().open(recipient.name(), patient);
    OptionalLong fence = means.lanes().take(recipient.name(), patient, means.holder(), LEASE);
    if (fence.isEmpty()) {
      return BUSY;
    }
    try {
      // Read anew, now that nothing is under way.
      for (Delivered each : means.rows().delivered(recipient.name(), patient)) {
        means.looking().look(look(one, each), means.rows().tried(recipient.name(), each));
      }
      return "";
    } finally {
      means.lanes().release(recipient.name(), patient, fence.getAsLong());
    }
  }
}
