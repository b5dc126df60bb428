package org.intercusp.exchange.courier;

import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.conformance.NotConformant;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Ending;
import org.intercusp.exchange.queue.Notice;
import org.intercusp.exchange.recipient.Clearance;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.records.DeliveryReport;
import org.intercusp.exchange.records.DeliveryResult;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.RecordsClient;
import org.intercusp.exchange.wire.Difficulty;
import org.intercusp.exchange.wire.Past;
import org.intercusp.finding.FaultPlace;
import org.intercusp.finding.Finding;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** One try of a delivery: asks once more whether it may go, sends it, and says how that ended. */
final class Errand {

  private static final Logger LOG = LoggerFactory.getLogger(Errand.class);

  private final TreatmentArchive archive;
  private final Clearance clearance;
  private final RecordsClient client;
  private final Clock clock;

  Errand(TreatmentArchive archive, Clearance clearance, RecordsClient client, Clock clock) {
    this.archive = archive;
    this.clearance = clearance;
    this.client = client;
    this.clock = clock;
  }

  /** Earlier versions as they would have been sent, as far as they may still go. */
  List<Bundle> bundles(Delivery delivery, Recipient recipient, List<Integer> versions) {
    List<Bundle> bundles = new ArrayList<>();
    for (int version : versions) {
      archive
          .version(delivery.treatment(), version)
          .map(stored -> clearance.clear(stored, recipient.scope()))
          .filter(Clearance.Answer.Ready.class::isInstance)
          .map(answer -> ((Clearance.Answer.Ready) answer).transaction())
          .ifPresent(bundles::add);
    }
    return bundles;
  }

  /**
   * Tries it.
   *
   * @param pasts gathers what is known of earlier tries; a fault there ends this one, too
   */
  Ending run(Delivery delivery, Recipient recipient, Ledger ledger, Supplier<Past> pasts) {
    Past past;
    try {
      past = pasts.get();
    } catch (NotConformant e) {
      return Ending.held("An earlier version, of which they may hold some, no longer conforms");
    } catch (RuntimeException e) {
      return ours(e);
    }
    return run(delivery, recipient, ledger, past);
  }

  private Ending run(Delivery delivery, Recipient recipient, Ledger ledger, Past past) {
    try {
      Optional<StoredTreatment> newest = archive.current(delivery.treatment());
      Optional<StoredTreatment> stored = newest.flatMap(one -> version(one, delivery));
      if (stored.isEmpty()) {
        return Ending.held("The treatment is no longer kept");
      }
      Clearance.Answer answer = clearance.clear(stored.get(), newest.get(), recipient.scope());
      if (answer instanceof Clearance.Answer.Stopped stopped) {
        return told(delivery, newest.get(), recipient, ledger, past)
            .orElseGet(() -> stopped(delivery, newest.get(), stopped));
      }
      return ending(
          client.deliver(
              recipient.target(), ((Clearance.Answer.Ready) answer).transaction(), ledger, past));
    } catch (NotConformant e) {
      // No later try makes it conform; the message names places and could hold what is there.
      return Ending.held("What would be sent does not conform: validate it to see why");
    } catch (RuntimeException e) {
      return ours(e);
    }
  }

  private static Ending stopped(
      Delivery delivery, StoredTreatment newest, Clearance.Answer.Stopped stopped) {
    String reason = "May no longer go: " + codes(stopped);
    return Ending.held(
        newest.version() == delivery.version()
            ? reason
            : reason + "; the newest version is " + newest.version());
  }

  private Optional<StoredTreatment> version(StoredTreatment newest, Delivery delivery) {
    return newest.version() == delivery.version()
        ? Optional.of(newest)
        : archive.version(delivery.treatment(), delivery.version());
  }

  /** Where consent ended, whoever holds the treatment is told that on its day, and nothing else. */
  private Optional<Ending> told(
      Delivery delivery, StoredTreatment newest, Recipient recipient, Ledger ledger, Past past) {
    if (!ledger.kept()) {
      return Optional.empty();
    }
    Optional<Clearance.Ended> ended = clearance.ended(newest, recipient.scope());
    Optional<Bundle> notice =
        ended.flatMap(one -> Notice.of(one.transaction(), delivery.treatment(), ledger));
    if (notice.isEmpty()) {
      return Optional.empty();
    }
    Duration until = Duration.between(clock.instant(), ended.get().begins(clock));
    if (until.compareTo(Duration.ZERO) <= 0) {
      return Optional.of(told(recipient, notice.get(), ledger, past));
    }
    // The newest version's own delivery is the one that keeps the day.
    return newest.version() == delivery.version()
        ? Optional.of(Ending.later("May not go now; told of the end of consent on its day", until))
        : Optional.empty();
  }

  private Ending told(Recipient recipient, Bundle notice, Ledger ledger, Past past) {
    clearance.check(notice);
    Ending end = ending(client.tell(recipient.target(), notice, Notice.about(ledger), past));
    DeliveryReport report = end.report();
    return report == null
        ? end
        : new Ending(
            end.state(), Notice.TOLD, 0, "", Notice.remembering(ledger, report), null, null);
  }

  private static String codes(Clearance.Answer.Stopped stopped) {
    return stopped.findings().stream()
        .map(Finding::code)
        .distinct()
        .collect(Collectors.joining(", "));
  }

  private static Ending ending(DeliveryResult result) {
    if (result instanceof DeliveryResult.Delivered delivered) {
      return new Ending(DeliveryState.DELIVERED, "", 0, "", delivered.report(), null, null);
    }
    if (result instanceof DeliveryResult.Failed failed) {
      return new Ending(
          state(failed.difficulty()),
          reason(failed),
          failed.status(),
          failed.words(),
          null,
          failed.retryAfter(),
          failed.difficulty());
    }
    DeliveryResult.Conflicting conflict = (DeliveryResult.Conflicting) result;
    String changed =
        some("Changed", conflict.differences().stream().map(DeliveryReport.Difference::path));
    String deleted = some("Deleted", conflict.deleted().stream().map(Ledger.Line::type));
    String both = changed.isEmpty() || deleted.isEmpty() ? "" : ". ";
    return Ending.held(conflict, changed + both + deleted);
  }

  private static String some(String how, Stream<String> what) {
    String places = what.distinct().limit(10).collect(Collectors.joining(", "));
    return places.isEmpty() ? "" : how + " at the recipient's since it was delivered: " + places;
  }

  private static DeliveryState state(Difficulty difficulty) {
    if (difficulty == Difficulty.UNDECIDED) {
      return DeliveryState.HELD;
    }
    return difficulty.isPassing() ? DeliveryState.WAITING : DeliveryState.REFUSED;
  }

  private static String reason(DeliveryResult.Failed failed) {
    return failed.written().isEmpty()
        ? failed.reason()
        : failed.reason() + "; written so far: " + String.join(", ", failed.written());
  }

  private static Ending ours(RuntimeException fault) {
    String incident = UUID.randomUUID().toString();
    LOG.error("Delivery failed, incident {}: {}", incident, FaultPlace.of(fault));
    return Ending.waiting("A fault of ours, incident " + incident);
  }
}
