package org.intercusp.exchange.courier;

import java.time.Duration;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.intercusp.exchange.queue.Lanes;
import org.springframework.dao.DataAccessException;
import org.springframework.transaction.TransactionException;

/** Keeps lanes leased while somebody works in them. */
final class Leases {

  private final Lanes lanes;
  private final Duration length;
  private final ScheduledExecutorService clock =
      Executors.newSingleThreadScheduledExecutor(Leases::daemon);

  Leases(Lanes lanes, Duration length) {
    this.lanes = lanes;
    this.length = length;
  }

  private static Thread daemon(Runnable work) {
    Thread thread = new Thread(work, "delivery-leases");
    thread.setDaemon(true);
    return thread;
  }

  /** A lane being worked in. */
  static final class Lease implements AutoCloseable {
    private final ScheduledFuture<?> renewal;
    private final AtomicBoolean lost;

    private Lease(ScheduledFuture<?> renewal, AtomicBoolean lost) {
      this.renewal = renewal;
      this.lost = lost;
    }

    /** Whether somebody else has the lane by now. */
    boolean isLost() {
      return lost.get();
    }

    @Override
    public void close() {
      renewal.cancel(false);
    }
  }

  /** Renews a lease until it is closed. No interrupt: it would close an embedded database. */
  Lease keep(String recipient, String patient, long fence) {
    AtomicBoolean lost = new AtomicBoolean();
    long period = Math.max(1, length.toMillis() / 3);
    ScheduledFuture<?> renewal =
        clock.scheduleWithFixedDelay(
            () -> {
              if (!lost.get() && !renewed(recipient, patient, fence)) {
                lost.set(true);
              }
            },
            period,
            period,
            TimeUnit.MILLISECONDS);
    return new Lease(renewal, lost);
  }

  private boolean renewed(String recipient, String patient, long fence) {
    try {
      return lanes.renew(recipient, patient, fence, length);
    } catch (DataAccessException | TransactionException e) {
      // The database may be back before the lease runs out: the fence decides in the end.
      return true;
    }
  }

  /** Ends behind a renewal that is under way, without an interrupt for the same reason. */
  void close() {
    clock.shutdown();
  }
}
