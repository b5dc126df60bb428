package org.intercusp.exchange.queue;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Objects;
import java.util.UUID;
import javax.sql.DataSource;
import org.hl7.fhir.r4.model.Bundle;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.exchange.records.Parcel;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Writes a delivery with its trail and its wake-up, in the caller's transaction. Where somebody
 * else added the same one meanwhile, that one counts.
 */
final class Adding {

  private final DeliveryRows rows;
  private final AuditTrail trail;
  private final WakeUps wakeUps;
  private final TransactionTemplate savepoint;
  private final Clock clock;

  Adding(DataSource database, DeliveryRows rows, AuditTrail trail, Clock clock) {
    this.rows = rows;
    this.trail = trail;
    this.wakeUps = new WakeUps(database);
    this.savepoint = new TransactionTemplate(new JdbcTransactionManager(database));
    savepoint.setPropagationBehavior(TransactionDefinition.PROPAGATION_NESTED);
    this.clock = clock;
  }

  /** One that is due at once, or on a day to come. */
  Queueing add(TreatmentKey key, int version, String recipient, Instant due, Bundle transaction) {
    Delivery delivery = fresh(key, version, recipient, due);
    String patient = Parcel.patientDigest(transaction);
    try {
      savepoint.executeWithoutResult(
          status -> {
            rows.add(delivery, patient);
            trail.done(Deed.QUEUE, Deliveries.thing(delivery));
          });
    } catch (DuplicateKeyException e) {
      return new Queueing.Existing(rows.find(key, version, recipient).orElseThrow());
    }
    wakeUps.set(delivery.id(), Objects.requireNonNull(delivery.dueAt()));
    return new Queueing.Queued(delivery);
  }

  /** One that is there is due now, whatever became of it before; as it is then. */
  Delivery again(Delivery delivery) {
    Instant now = now();
    rows.move(delivery.id(), DeliveryState.QUEUED, "", now, now);
    wakeUps.set(delivery.id(), now);
    return rows.find(delivery.id()).orElseThrow();
  }

  private Delivery fresh(TreatmentKey key, int version, String recipient, Instant due) {
    Instant now = now();
    return new Delivery(
        UUID.randomUUID().toString(),
        key,
        version,
        recipient,
        DeliveryState.QUEUED,
        "",
        now,
        now,
        due,
        0);
  }

  /** As exact as the databases keep it. */
  Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }
}
