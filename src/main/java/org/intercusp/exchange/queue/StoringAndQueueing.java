package org.intercusp.exchange.queue;

import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.function.Supplier;
import javax.sql.DataSource;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** Takes a treatment and queues its deliveries, both or neither. */
public final class StoringAndQueueing {

  private final TreatmentArchive archive;
  private final Deliveries deliveries;
  private final TransactionTemplate transaction;

  public StoringAndQueueing(DataSource database, TreatmentArchive archive, Deliveries deliveries) {
    this.archive = archive;
    this.deliveries = deliveries;
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
  }

  /**
   * What became of it.
   *
   * @param deliveries one answer for each recipient asked for, empty when it was refused; then one
   *     for each other who is sent a new sign of harm, or told that consent has ended
   */
  public record Taken(Storing storing, List<Queueing> deliveries) {
    public Taken {
      deliveries = List.copyOf(deliveries);
    }
  }

  /** Stores a new treatment and queues it for these recipients. */
  public Taken store(TreatmentKey key, byte[] canonical, List<String> recipients) {
    foresee(key, 1, canonical, recipients);
    return taken(key, recipients, () -> archive.store(key, canonical));
  }

  /** Adds a version and queues it for these recipients. */
  public Taken replace(TreatmentKey key, int expected, byte[] canonical, List<String> recipients) {
    foresee(key, expected + 1, canonical, recipients);
    return taken(key, recipients, () -> archive.replace(key, expected, canonical));
  }

  private void foresee(TreatmentKey key, int version, byte[] canonical, List<String> recipients) {
    deliveries.foresee(archive.coming(key, version, canonical), recipients);
  }

  // Whoever sends the same again, since no answer came, wants it delivered all the same.
  private static @Nullable StoredTreatment newest(Storing end) {
    if (end instanceof Storing.Stored stored) {
      return stored.version();
    }
    return end instanceof Storing.Same same ? same.version() : null;
  }

  private Taken taken(TreatmentKey key, List<String> recipients, Supplier<Storing> storing) {
    return Objects.requireNonNull(
        transaction.execute(
            status -> {
              Storing end = storing.get();
              List<Queueing> queued = new ArrayList<>();
              StoredTreatment newest = newest(end);
              if (newest != null) {
                recipients.forEach(to -> queued.add(deliveries.queue(key, newest.version(), to)));
              }
              if (end instanceof Storing.Stored stored) {
                queued.addAll(deliveries.alarm(stored.version(), recipients));
                queued.addAll(deliveries.tell(stored.version(), recipients));
              }
              return new Taken(end, queued);
            }));
  }
}
