package org.intercusp.exchange;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Supplier;
import javax.sql.DataSource;
import org.intercusp.archive.Storing;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** Takes a treatment and queues its deliveries, both or neither. */
public final class Intake {

  private final TreatmentArchive archive;
  private final Deliveries deliveries;
  private final TransactionTemplate transaction;

  public Intake(DataSource database, TreatmentArchive archive, Deliveries deliveries) {
    this.archive = archive;
    this.deliveries = deliveries;
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
  }

  /**
   * What became of it.
   *
   * @param deliveries one answer for each recipient asked for, empty when nothing was stored
   */
  public record Taken(Storing storing, List<Queueing> deliveries) {
    public Taken {
      deliveries = List.copyOf(deliveries);
    }
  }

  /** Stores a new treatment and queues it for these recipients. */
  public Taken store(TreatmentKey key, byte[] canonical, List<String> recipients) {
    return taken(key, recipients, () -> archive.store(key, canonical));
  }

  /** Adds a version and queues it for these recipients. */
  public Taken replace(TreatmentKey key, int expected, byte[] canonical, List<String> recipients) {
    return taken(key, recipients, () -> archive.replace(key, expected, canonical));
  }

  private Taken taken(TreatmentKey key, List<String> recipients, Supplier<Storing> storing) {
    return Objects.requireNonNull(
        transaction.execute(
            status -> {
              Storing end = storing.get();
              List<Queueing> queued = new ArrayList<>();
              if (end instanceof Storing.Stored stored) {
                int version = stored.version().version();
                recipients.forEach(to -> queued.add(deliveries.queue(key, version, to)));
              }
              return new Taken(end, queued);
            }));
  }
}
