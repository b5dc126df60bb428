package org.intercusp.exchange.courier;

import java.time.Duration;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.UUID;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.intercusp.exchange.queue.Lanes;
import org.intercusp.exchange.wire.Daemons;
import org.springframework.dao.DataAccessException;
import org.springframework.transaction.TransactionException;

/** Takes lanes for this instance, and keeps them leased while somebody works in them. */
final class Leases {

  private final Lanes lanes;
  private final Duration length;
  private final String holder = UUID.randomUUID().toString();
  private final ScheduledExecutorService clock =
      Executors.newSingleThreadScheduledExecutor(Daemons.named("delivery-leases"));

  Leases(Lanes lanes, Duration length) {
    this.lanes = lanes;
    this.length = length;
  }

  /** A lane being worked in; closed, others may have it. */
  final class Lease implements AutoCloseable {

    private final String recipient;
    private final String patient;
    private final long fence;
    private final AtomicBoolean lost = new AtomicBoolean();
    private final ScheduledFuture<?> renewal;

    private Lease(String recipient, String patient, long fence) {
      this.recipient = recipient;
      this.patient = patient;
      this.fence = fence;
      long period = Math.max(1, length.toMillis() / 3);
      this.renewal =
          clock.scheduleWithFixedDelay(this::renew, period, period, TimeUnit.MILLISECONDS);
    }

    String patient() {
      return patient;
    }

    /** Rises with every lease of the lane: who shows an older one has lost it. */
    long fence() {
      return fence;
    }

    /** Whether somebody else has the lane by now. */
    boolean isLost() {
      return lost.get();
    }

    private void renew() {
      try {
        if (!lost.get() && !lanes.renew(recipient, patient, fence, length)) {
          lost.set(true);
        }
      } catch (DataAccessException | TransactionException e) {
        // The database may be back before the lease runs out: the fence decides in the end.
        return;
      }
    }

    /** No interrupt: it would close an embedded database. */
    @Override
    public void close() {
      renewal.cancel(false);
      lanes.release(recipient, patient, fence);
    }
  }

  /** Takes the lane of a patient at a recipient; empty while somebody else has it. */
  Optional<Lease> take(String recipient, String patient) {
    lanes.open(recipient, patient);
    OptionalLong taken = lanes.take(recipient, patient, holder, length);
    if (taken.isEmpty()) {
      return Optional.empty();
    }
    long fence = taken.getAsLong();
    try {
      return Optional.of(new Lease(recipient, patient, fence));
    } catch (RuntimeException e) {
      // Nothing renews it, as when this instance is being stopped: the next one need not wait.
      lanes.release(recipient, patient, fence);
      throw e;
    }
  }

  /** Frees all lanes: for a database that no other instance can have open. */
  void releaseAll() {
    lanes.releaseAll();
  }

  /** Ends behind a renewal that is under way, without an interrupt: see {@link Lease#close}. */
  void close() {
    clock.shutdown();
  }
}
