package org.intercusp.exchange.proposal;

import java.time.Clock;
import java.util.List;
import java.util.Objects;
import javax.sql.DataSource;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.exchange.proposal.Proposal.Content;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.DeliveryRows;
import org.intercusp.exchange.queue.DeliveryState;
import org.intercusp.exchange.queue.Ending;
import org.intercusp.exchange.queue.Notice;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.records.DeliveryReport;
import org.intercusp.exchange.records.DeliveryResult.Conflicting;
import org.intercusp.exchange.records.Ledger.Holder;

/**
 * Has people at the clinic told what a delivery met at the recipient: what was deleted there,
 * patients that became one, and, where nobody asks the recipient for changes, what was changed. It
 * takes part in the transaction that ends the attempt.
 */
public final class Telling {

  private final ProposalRows proposals;
  private final DeliveryRows deliveries;
  private final Offering offering;

  public Telling(DataSource database, AuditTrail trail, Clock clock) {
    this.proposals = new ProposalRows(database, trail.callers());
    this.deliveries = new DeliveryRows(database, trail.callers());
    this.offering = new Offering(proposals, trail, clock);
  }

  /** Holds the treatment's row where there is something to tell: before any other row is held. */
  public boolean begins(Delivery delivery, Ending ending) {
    boolean any =
        ending.conflict() != null
            || !merged(ending).isEmpty()
            || (isWhole(ending)
                && proposals.isOpen(delivery.treatment(), delivery.recipient(), Kind.DELETED));
    if (any) {
      proposals.hold(delivery.treatment());
    }
    return any;
  }

  /**
   * Tells what an attempt met that ended so, where {@link #begins} said that there is something.
   */
  public void tell(Delivery delivery, Recipient recipient, Ending ending) {
    Conflicting conflict = ending.conflict();
    Offering.Subject subject = subject(delivery);
    if (conflict != null) {
      offering.deleted(subject, conflict.deleted());
      if (recipient.pollEvery() == null) {
        offering.listed(subject, new Content(List.of(), conflict.beyond(), conflict.origins()));
      }
    }
    if (isWhole(ending)) {
      offering.restored(subject, List.of());
    }
    merged(ending).forEach(holder -> offering.merged(subject, holder));
  }

  // A notice that consent ended looks at the consent alone.
  private static boolean isWhole(Ending ending) {
    return ending.state() == DeliveryState.DELIVERED && !ending.reason().equals(Notice.TOLD);
  }

  private static List<Holder> merged(Ending ending) {
    DeliveryReport report = ending.report();
    Holder holder = report == null ? null : report.ledger().patient();
    return holder == null || holder.merged().isEmpty() ? List.of() : List.of(holder);
  }

  private Offering.Subject subject(Delivery delivery) {
    TreatmentKey key = delivery.treatment();
    int base =
        deliveries.of(key).stream()
            .filter(one -> one.recipient().equals(delivery.recipient()))
            .filter(one -> one.state() == DeliveryState.DELIVERED)
            .filter(one -> !Objects.equals(one.reason(), Notice.TOLD))
            .mapToInt(Delivery::version)
            .max()
            .orElse(delivery.version());
    return new Offering.Subject(delivery.recipient(), key, base, Placing.JSON.createObjectNode());
  }
}
