package org.intercusp.exchange.courier;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.records.Likeness;
import org.intercusp.exchange.wire.Deadline;
import org.intercusp.exchange.wire.Past;
import org.jspecify.annotations.Nullable;

/**
 * One try of a delivery by whoever holds its lane: notes every write before it goes out, so that
 * the next one knows of it whatever becomes of this process.
 */
final class Try implements AutoCloseable {

  /** The lane of who creates people and organisations that patients share. */
  private static final String SHARED = Likeness.digest("people and organisations");

  /** Longer than a write takes, shorter than a call may: common practice, no source. */
  private static final Duration PATIENCE = Duration.ofSeconds(10);

  /** Common practice, no source. */
  private static final Duration BETWEEN_LOOKS = Duration.ofMillis(50);

  private final UnansweredRows rows;
  private final Leases leases;
  private final Duration settling;
  private final Delivery delivery;
  private final Leases.Lease lease;
  private Leases.@Nullable Lease shared;
  private volatile boolean unanswered;

  /**
   * A try under a lease, which whoever took it closes.
   *
   * @param settling how long a write without an answer may still be carried out
   */
  Try(
      UnansweredRows rows,
      Leases leases,
      Duration settling,
      Delivery delivery,
      Leases.Lease lease) {
    this.rows = rows;
    this.leases = leases;
    this.settling = settling;
    this.delivery = delivery;
    this.lease = lease;
  }

  /** The versions of which the recipient may hold something. */
  List<Integer> perhapsHeld() {
    return rows.perhapsHeld(delivery);
  }

  /** What is known of earlier tries, with the versions of which the recipient may hold some. */
  Past past(List<Bundle> perhapsHeld) {
    UnansweredRows.Open open = rows.open(delivery, lease.patient(), settling);
    return new Past(
        perhapsHeld,
        Deadline.in(open.left()),
        open.repeatable(),
        this::mayWrite,
        () -> unanswered = false,
        this::isSole);
  }

  /** Whether a write went out that nobody heard of. */
  boolean isUnanswered() {
    return unanswered;
  }

  private boolean mayWrite(boolean conditional) {
    Leases.Lease also = shared;
    boolean may =
        !lease.isLost()
            && (also == null || !also.isLost())
            && rows.begin(delivery, lease, also != null, conditional);
    unanswered |= may;
    return may;
  }

  private boolean isSole() {
    if (shared != null) {
      return !shared.isLost();
    }
    shared = sharedLane().orElse(null);
    if (shared == null) {
      return false;
    }
    if (rows.isSharedOpen(delivery, settling)) {
      close();
      return false;
    }
    return true;
  }

  // Whoever has it writes this moment: to wait costs less than to look at everything again later.
  private Optional<Leases.Lease> sharedLane() {
    Deadline patience = Deadline.in(PATIENCE);
    while (true) {
      Optional<Leases.Lease> taken = leases.take(delivery.recipient(), SHARED);
      if (taken.isPresent() || lease.isLost() || patience.isOver()) {
        return taken;
      }
      try {
        Thread.sleep(BETWEEN_LOOKS.toMillis());
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
        return taken;
      }
    }
  }

  /** Gives back the lane that it took itself. */
  @Override
  public void close() {
    Leases.Lease also = shared;
    if (also != null) {
      also.close();
      shared = null;
    }
  }
}
