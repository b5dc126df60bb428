package org.intercusp.exchange;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Objects;
import java.util.OptionalLong;
import java.util.Set;
import java.util.UUID;
import javax.sql.DataSource;
import org.hl7.fhir.r4.model.Resource;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.Ledger.Holder;
import org.intercusp.exchange.PollRows.Delivered;
import org.intercusp.exchange.Snapshot.Name;
import org.intercusp.exchange.Survivors.Followed;
import org.intercusp.fhir.TreatmentMapper;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Asks a recipient what its people changed for the patients that were delivered to it, and has it
 * proposed. A question goes back behind the one before by an overlap, on the recipient's clock and
 * never on ours; where that clock was set back, everything is looked at. While a patient is looked
 * at, nothing is delivered for them, so that what is under way is not taken for a change.
 */
public final class Poller {

  private static final Logger LOG = LoggerFactory.getLogger(Poller.class);

  private static final Caller WORKER = Caller.worker("recipient-poller");

  /** How long a patient's lane is taken: longer than a call; common practice, no source. */
  private static final Duration LEASE = Duration.ofMinutes(3);

  private final Recipients recipients;
  private final RecordsClient client;
  private final PollSettings settings;
  private final CurrentCaller callers;
  private final Clock clock;
  private final PollRows rows;
  private final LedgerRows ledgers;
  private final Lanes lanes;
  private final Looking looking;
  private final String holder = UUID.randomUUID().toString();

  public Poller(
      DataSource database,
      TreatmentArchive archive,
      Recipients recipients,
      RecordsClient client,
      TreatmentMapper mapper,
      PollSettings settings,
      AuditTrail trail,
      Clock clock) {
    this.recipients = recipients;
    this.client = client;
    this.settings = settings;
    this.callers = trail.callers();
    this.clock = clock;
    this.rows = new PollRows(database, callers);
    this.ledgers = new LedgerRows(database);
    this.lanes = new Lanes(database);
    this.looking = new Looking(database, archive, mapper, trail, clock);
  }

  /** The recipients that are asked. */
  List<Recipient> asked() {
    return recipients.all().stream().filter(one -> one.pollEvery() != null).toList();
  }

  /**
   * Asks a recipient once.
   *
   * @return why not everything could be looked at; empty where it could
   */
  public String poll(Recipient recipient) {
    return callers.as(WORKER, () -> polled(recipient));
  }

  private String polled(Recipient recipient) {
    Instant time = null;
    String trouble = "";
    try {
      FhirServer server = client.reader(recipient.target());
      server.capabilities();
      time = server.time().orElse(null);
      Instant since = since(rows.asked(recipient.name()).orElse(null), time);
      trouble = looked(recipient, since);
    } catch (Trouble e) {
      trouble = e.reason();
    } catch (RuntimeException e) {
      trouble = ours(e);
    }
    Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
    rows.asked(recipient.name(), trouble.isEmpty() ? time : null, now, trouble);
    if (!trouble.isEmpty()) {
      LOG.warn("recipient {} could not be asked for all changes: {}", recipient.name(), trouble);
    }
    return trouble;
  }

  private @Nullable Instant since(@Nullable Instant asked, @Nullable Instant time) {
    boolean setBack = asked != null && time != null && time.isBefore(asked);
    return asked == null || setBack ? null : asked.minus(settings.overlap());
  }

  private String looked(Recipient recipient, @Nullable Instant since) throws Trouble {
    String trouble = "";
    List<List<Delivered>> all = List.copyOf(rows.delivered(recipient.name()).values());
    for (int from = 0; from < all.size(); from += settings.patients()) {
      int to = Math.min(all.size(), from + settings.patients());
      trouble = worse(trouble, looked(recipient, since, all.subList(from, to)));
    }
    return trouble;
  }

  /**
   * Asks for some together, and for each alone where that comes to nothing, so that one patient
   * does not stand between us and all others. A server that no longer answers at all ends it.
   */
  private String looked(Recipient recipient, @Nullable Instant since, List<List<Delivered>> some)
      throws Trouble {
    Portion portion = new Portion(recipient, since);
    String trouble;
    try {
      return portion.look(some);
    } catch (Trouble e) {
      trouble = e.reason();
    } catch (RuntimeException e) {
      trouble = ours(e);
    }
    if (some.size() == 1) {
      return trouble;
    }
    String ofOne = "";
    for (List<Delivered> one : some) {
      ofOne = worse(ofOne, looked(recipient, since, List.of(one)));
    }
    return ofOne;
  }

  private static String worse(String one, String other) {
    return one.isEmpty() ? other : one;
  }

  // The message of an exception can hold a patient's data: it stays out of log and database.
  private static String ours(RuntimeException fault) {
    StackTraceElement[] trace = fault.getStackTrace();
    String place = trace.length == 0 ? "an unknown place" : trace[0].toString();
    return "A fault of ours, " + fault.getClass().getSimpleName() + " at " + place;
  }

  /** Some patients, asked for together. */
  private final class Portion {

    private final Recipient recipient;
    private final @Nullable Instant since;
    private final FhirServer server;
    private final Survey survey;

    /** A patient and what of theirs was delivered. */
    private record Known(List<Delivered> delivered, Token token, Followed patient) {

      boolean isOneOf(Set<String> ids) {
        return patient.merged().stream().anyMatch(ids::contains)
            || patient.standing().stream()
                .anyMatch(one -> ids.contains(one.getIdElement().getIdPart()));
      }
    }

    Portion(Recipient recipient, @Nullable Instant since) throws Trouble {
      this.recipient = recipient;
      this.since = since;
      this.server = client.reader(recipient.target());
      this.survey = new Survey(server, server.capabilities());
    }

    String look(List<List<Delivered>> patients) throws Trouble {
      List<Known> known = known(patients);
      Set<String> ids = new LinkedHashSet<>();
      for (Known one : known) {
        ids.addAll(one.patient().merged());
        one.patient().standing().forEach(each -> ids.add(each.getIdElement().getIdPart()));
      }
      Set<String> touched = survey.touched(ids, since);
      String trouble = "";
      for (Known one : known) {
        boolean look = one.isOneOf(touched) || isNew(one) || one.patient().standing().isEmpty();
        if (look) {
          trouble = worse(trouble, alone(one));
        }
      }
      return trouble;
    }

    /**
     * Whatever becomes of one patient, the others are looked at: only silence for all is thrown.
     */
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
        return ours(e);
      }
    }

    /** Whether the Patient itself was changed, or is another than before. */
    private boolean isNew(Known one) {
      Holder before = ledgers.holder(recipient.name(), one.delivered().get(0).key());
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
        Holder before = ledgers.holder(recipient.name(), first.key());
        Token token = before == null ? looking.patient(first) : before.token();
        tokens.add(token);
        names.add(new Name("Patient", token));
      }
      Snapshot found = Snapshot.of(server, names);
      List<Known> known = new ArrayList<>();
      for (int i = 0; i < patients.size(); i++) {
        Name name = new Name("Patient", tokens.get(i));
        Holder before = ledgers.holder(recipient.name(), patients.get(i).get(0).key());
        List<Resource> all = found.all(name);
        Followed followed = new Survivors(server).of(name, all, before);
        known.add(new Known(patients.get(i), tokens.get(i), followed));
      }
      return known;
    }

    private String inLane(Known one) throws Trouble {
      String patient = one.delivered().get(0).patient();
      lanes.open(recipient.name(), patient);
      OptionalLong fence = lanes.take(recipient.name(), patient, holder, LEASE);
      if (fence.isEmpty()) {
        return "Something is being delivered for a patient";
      }
      try {
        // Read anew, now that nothing is under way.
        for (Delivered each : rows.delivered(recipient.name(), patient)) {
          looking.look(
              new Looking.Look(recipient, server, survey, each, one.patient(), one.token()),
              rows.tried(recipient.name(), each));
        }
        return "";
      } finally {
        lanes.release(recipient.name(), patient, fence.getAsLong());
      }
    }
  }
}
