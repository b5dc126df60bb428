package org.intercusp.exchange.courier;

import java.time.Duration;
import java.util.List;
import java.util.OptionalLong;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.Lanes;
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

  private static final Duration BETWEEN_LOOKS = Duration.ofMillis(50);

  private final UnansweredRows rows;
  private final Lanes lanes;
  private final Leases leases;
  private final DeliverySettings settings;
  private final String holder;
  private final Delivery delivery;
  private final String patient;
  private final long fence;
  private final Leases.Lease lease;
  private Leases.@Nullable Lease sole;
  private long soleFence;
  private volatile boolean unanswered;

  Try(
      UnansweredRows rows,
      Lanes lanes,
      Leases leases,
      DeliverySettings settings,
      String holder,
      Delivery delivery,
      String patient,
      long fence,
      Leases.Lease lease) {
    this.rows = rows;
    this.lanes = lanes;
    this.leases = leases;
    this.settings = settings;
    this.holder = holder;
    this.delivery = delivery;
    this.patient = patient;
    this.fence = fence;
    this.lease = lease;
  }

  /** The versions of which the recipient may hold something. */
  List<Integer> perhaps() {
    return rows.perhaps(delivery);
  }

  Past past(List<Bundle> perhaps) {
    UnansweredRows.Open open = rows.open(delivery, patient, settings.settling());
    return new Past(
        perhaps,
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
    Leases.Lease shared = sole;
    boolean may =
        !lease.isLost()
            && (shared == null || !shared.isLost())
            && rows.begin(delivery, patient, fence, shared != null, conditional);
    unanswered |= may;
    return may;
  }

  private boolean isSole() {
    if (sole != null) {
      return !sole.isLost();
    }
    lanes.open(delivery.recipient(), SHARED);
    OptionalLong taken = sharedLane();
    if (taken.isEmpty()) {
      return false;
    }
    soleFence = taken.getAsLong();
    sole = leases.keep(delivery.recipient(), SHARED, soleFence);
    if (rows.isSharedOpen(delivery, settings.settling())) {
      close();
      return false;
    }
    return true;
  }

  // Whoever has it writes this moment: to wait costs less than to look at everything again later.
  private OptionalLong sharedLane() {
    Deadline patience = Deadline.in(PATIENCE);
    while (true) {
      OptionalLong taken = lanes.take(delivery.recipient(), SHARED, holder, settings.lease());
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

  @Override
  public void close() {
    Leases.Lease shared = sole;
    if (shared != null) {
      shared.close();
      lanes.release(delivery.recipient(), SHARED, soleFence);
      sole = null;
    }
  }
}
