package org.intercusp.exchange.courier;

import com.github.kagkarlsson.scheduler.task.CompletionHandler;
import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import javax.sql.DataSource;
import org.intercusp.access.CurrentCaller;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryRows;
import org.intercusp.exchange.queue.DeliveryState;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * What becomes of a delivery's wake-up when a worker is done. It is settled with the delivery's row
 * held, as whoever asks for another try holds it: they come before, and are seen, or after, and
 * make a wake-up of their own. Without that one of them in between was kept with nobody to wake it.
 */
final class WakeUpsEnd {

  private final DeliveryRows rows;
  private final CurrentCaller callers;
  private final TransactionTemplate transaction;
  private final Clock clock;

  WakeUpsEnd(DataSource database, CurrentCaller callers, Clock clock) {
    this.rows = new DeliveryRows(database, callers);
    this.callers = callers;
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
    this.clock = clock;
  }

  /**
   * For the scheduler, which must write within the transaction of whoever calls it.
   *
   * @param began when the worker began
   * @param planned when it wants to come again; empty where nothing more happens by itself
   */
  CompletionHandler<Void> after(String delivery, Instant began, Optional<Instant> planned) {
    return (complete, operations) ->
        transaction.executeWithoutResult(
            status ->
                again(delivery, began, planned)
                    .ifPresentOrElse(
                        when -> operations.reschedule(complete, when), operations::remove));
  }

  private Optional<Instant> again(String id, Instant began, Optional<Instant> planned) {
    Optional<Delivery> open =
        callers
            .as(Courier.WORKER, () -> rows.held(id))
            .filter(delivery -> !delivery.state().isFinal());
    Instant now = clock.instant();
    return open.map(
        delivery -> planned.filter(when -> !askedFor(delivery, began, when)).orElse(now));
  }

  /** Whether somebody has asked for it since, for sooner than is planned. */
  private static boolean askedFor(Delivery delivery, Instant began, Instant planned) {
    Instant due = delivery.dueAt();
    return delivery.state() == DeliveryState.QUEUED
        && delivery.changedAt().isAfter(began)
        && due != null
        && due.isBefore(planned);
  }
}
