package org.intercusp.exchange.records;

import ca.uhn.fhir.context.FhirContext;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.conformance.Guard;
import org.intercusp.exchange.wire.Calls;
import org.intercusp.exchange.wire.Capabilities;
import org.intercusp.exchange.wire.ClientSettings;
import org.intercusp.exchange.wire.Daemons;
import org.intercusp.exchange.wire.Deadline;
import org.intercusp.exchange.wire.Difficulty;
import org.intercusp.exchange.wire.FhirServer;
import org.intercusp.exchange.wire.Past;
import org.intercusp.exchange.wire.Target;
import org.intercusp.exchange.wire.Trouble;
import org.intercusp.fhir.Canonicals;

/**
 * Brings treatments to any FHIR R4 server and reads them back. What is on the server is looked at
 * first and only what is absent or says something else is written, so that sending again leaves a
 * server as it is, whether or not it makes new versions of what it has. Deliveries that concern one
 * patient follow one another. Nothing but the base URL's own host is ever called.
 */
public final class RecordsClient {

  /** Servers asked at once whether they answer; common practice, no source. */
  private static final int AT_ONCE = 16;

  /** How long a thread waits for the next question; common practice, no source. */
  private static final Duration IDLE = Duration.ofSeconds(30);

  private final FhirContext r4;
  private final Canonicals canonicals;
  private final ClientSettings settings;
  private final Clock clock;
  private final Calls calls;
  private final Turns patients = new Turns();
  private final ThreadPoolExecutor asking =
      new ThreadPoolExecutor(
          AT_ONCE,
          AT_ONCE,
          IDLE.toSeconds(),
          TimeUnit.SECONDS,
          new LinkedBlockingQueue<>(),
          Daemons.named("recipients-asked"));

  /**
   * A client.
   *
   * @param r4 the context for R4, shared since it is dear to make
   * @param canonicals under which what is delivered was mapped
   * @param guard stands before every answer
   */
  public RecordsClient(
      FhirContext r4, Canonicals canonicals, Guard guard, ClientSettings settings, Clock clock) {
    this.r4 = r4;
    this.canonicals = canonicals;
    this.settings = settings;
    this.clock = clock;
    this.calls = new Calls(r4, canonicals, guard, settings, clock);
    asking.allowCoreThreadTimeOut(true);
  }

  /**
   * Delivers a treatment.
   *
   * @param transaction a transaction Bundle of the treatment mapper: every entry with a {@code
   *     urn:uuid}, shared resources as conditional creates, ours as conditional updates
   * @param ledger what the recipient was given before; {@link Ledger#NONE} where nobody keeps one
   * @throws IllegalArgumentException when the Bundle is not of that form
   */
  public DeliveryResult deliver(Target target, Bundle transaction, Ledger ledger) {
    return deliver(target, transaction, ledger, Past.NONE);
  }

  /** The same for a sender who remembers earlier tries and may lose the right to send meanwhile. */
  public DeliveryResult deliver(Target target, Bundle transaction, Ledger ledger, Past past) {
    return deliver(target, transaction, ledger, past, true);
  }

  /** Tells a server something of what it holds already; nothing is made there that is not. */
  public DeliveryResult tell(Target target, Bundle notice, Ledger ledger, Past past) {
    return deliver(target, notice, ledger, past.alone(), false);
  }

  private DeliveryResult deliver(
      Target target, Bundle transaction, Ledger ledger, Past past, boolean mayCreate) {
    Parcel parcel = Parcel.of(r4, transaction);
    Deadline deadline = Deadline.in(settings.deadline());
    String patient = patient(target, parcel);
    try {
      if (!patients.take(patient, deadline.left())) {
        return busy();
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      return busy();
    }
    try {
      FhirServer server = calls.to(target, deadline, past);
      return new Delivering(server, parcel, ledger, canonicals, mayCreate, clock).run();
    } finally {
      patients.give(patient);
    }
  }

  /** Reads the treatments of the patient with this identifier back, each as a Bundle of its own. */
  public FetchResult fetch(Target target, String patientSystem, String patientValue) {
    Deadline deadline = Deadline.in(settings.deadline());
    return new Fetching(calls.to(target, deadline, Past.READING)).run(patientSystem, patientValue);
  }

  /** Whether the server answers with a CapabilityStatement of FHIR R4. */
  public Reachability reach(Target target) {
    try {
      Capabilities can =
          calls.to(target, Deadline.in(settings.connecting()), Past.READING).capabilities();
      return new Reachability(true, "FHIR " + can.release().version());
    } catch (Trouble e) {
      return new Reachability(false, e.reason());
    }
  }

  /** The same of several servers at once, in the order given: one that is down delays no other. */
  public List<Reachability> reach(List<Target> targets) {
    return targets.stream()
        .map(target -> CompletableFuture.supplyAsync(() -> reach(target), asking))
        .toList()
        .stream()
        .map(CompletableFuture::join)
        .toList();
  }

  /**
   * Whether a server can be talked to.
   *
   * @param words one sentence for a person
   */
  public record Reachability(boolean reached, String words) {}

  /** The interactions of one call that only reads. */
  public FhirServer reader(Target target) {
    return calls.to(target, Deadline.in(settings.deadline()), Past.READING);
  }

  private static String patient(Target target, Parcel parcel) {
    String patient = parcel.patient().map(item -> item.token().search()).orElse("");
    return target.baseUrl() + "\n" + patient;
  }

  private static DeliveryResult busy() {
    return new DeliveryResult.Failed(
        Difficulty.SLOW,
        "Another delivery for the same patient did not end in time",
        0,
        "",
        null,
        List.of());
  }
}
