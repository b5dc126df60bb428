package org.intercusp.exchange.proposal;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import javax.sql.DataSource;
import org.intercusp.access.Caller;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.proposal.PollRows.Delivered;
import org.intercusp.exchange.queue.Lanes;
import org.intercusp.exchange.queue.LedgerRows;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.RecordsClient;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Trouble;
import org.intercusp.fhir.TreatmentMapper;
import org.intercusp.finding.FaultPlace;
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

  private final Recipients recipients;
  private final RecordsClient client;
  private final Portion.Means means;
  private final PollSettings settings;
  private final CurrentCaller callers;
  private final Clock clock;
  private final PollRows rows;

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
    this.means =
        new Portion.Means(
            client,
            rows,
            new LedgerRows(database),
            new Lanes(database),
            new Looking(database, archive, mapper, trail, clock),
            UUID.randomUUID().toString());
  }

  /** The recipients that are asked. */
  public List<Recipient> asked() {
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
    String ofRound = "";
    try {
      FhirServer server = client.reader(recipient.target());
      server.capabilities();
      time = server.time().orElse(null);
      Instant since = since(rows.asked(recipient.name()).orElse(null), time);
      trouble = looked(recipient, since);
      ofRound = round(recipient);
    } catch (Trouble e) {
      trouble = e.reason();
    } catch (RuntimeException e) {
      trouble = ours(e);
    }
    Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
    String all = worse(trouble, ofRound);
    rows.asked(recipient.name(), trouble.isEmpty() ? time : null, now, all);
    if (!all.isEmpty()) {
      LOG.warn("recipient {} could not be asked for all changes: {}", recipient.name(), all);
    }
    return all;
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
    Portion portion = new Portion(means, recipient, since);
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

  /**
   * Looks through some of the patients for what was deleted, beginning behind the one before: all
   * are come by in turn, and what one poll costs is bounded. Its trouble holds back no window.
   */
  private String round(Recipient recipient) {
    String at = rows.round(recipient.name());
    List<List<Delivered>> next = new ArrayList<>();
    Map<String, List<Delivered>> all = rows.delivered(recipient.name());
    all.keySet().stream()
        .sorted()
        .filter(one -> one.compareTo(at) > 0)
        .forEach(one -> next.add(all.get(one)));
    all.keySet().stream()
        .sorted()
        .filter(one -> one.compareTo(at) <= 0)
        .forEach(one -> next.add(all.get(one)));
    List<List<Delivered>> some = next.subList(0, Math.min(settings.round(), next.size()));
    if (some.isEmpty()) {
      return "";
    }
    // Before anything is asked, so that no patient at whom it fails is in the way of the others.
    rows.round(recipient.name(), some.get(some.size() - 1).get(0).patient());
    try {
      return new Portion(means, recipient, null).round(some);
    } catch (Trouble e) {
      return e.reason();
    } catch (RuntimeException e) {
      return ours(e);
    }
  }

  static String worse(String one, String other) {
    return one.isEmpty() ? other : one;
  }

  static String ours(RuntimeException fault) {
    return "A fault of ours, " + FaultPlace.of(fault);
  }
}
