package org.intercusp.exchange.custody;

import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import javax.sql.DataSource;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.treatment.Completion;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Erases a treatment once its retention has run out: every version, its resources, its row in the
 * list, its deliveries and what is remembered of them, in one transaction. What stays: the trail of
 * deeds, which names no patient but in the words that people searched by; the treatment's id, so
 * that it is never used again; the registry's rows, which know the person by pseudonym only and are
 * taken out by a withdrawal there; and what recipients hold, which is theirs to remove.
 */
public final class Erasure {

  private final TreatmentArchive archive;
  private final ErasureOfDeliveries deliveries;
  private final TreatmentReader reader;
  private final RetentionSettings retention;
  private final TransactionTemplate transaction;
  private final Clock clock;

  public Erasure(
      DataSource database,
      TreatmentArchive archive,
      TreatmentReader reader,
      RetentionSettings retention,
      Clock clock) {
    this.archive = archive;
    this.deliveries = new ErasureOfDeliveries(database);
    this.reader = reader;
    this.retention = retention;
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
    this.clock = clock;
  }

  /**
   * What would go, and whether it may.
   *
   * @param refusal why it may not be erased, one sentence; empty where it may
   * @param until the first day on which it may; absent where that is not known yet
   * @param holders recipients that were given it, by name
   */
  public record Standing(
      String refusal,
      @Nullable LocalDate until,
      int versions,
      long deliveries,
      List<String> holders) {
    public Standing {
      holders = List.copyOf(holders);
    }

    /** Whether it may be erased. */
    public boolean mayGo() {
      return refusal.isEmpty();
    }
  }

  /** How a treatment stands; empty where there is none. */
  public Optional<Standing> standing(TreatmentKey key) {
    return archive.current(key).map(this::standing);
  }

  private Standing standing(StoredTreatment stored) {
    TreatmentKey key = stored.key();
    LocalDate until = until(stored);
    return new Standing(
        refusal(key, until),
        until,
        stored.version(),
        deliveries.count(key),
        deliveries.holders(key));
  }

  private String refusal(TreatmentKey key, @Nullable LocalDate until) {
    if (until == null) {
      return "The treatment has not ended, so its retention has not begun.";
    }
    if (until.isAfter(LocalDate.now(clock))) {
      return "It must be kept until " + until + ".";
    }
    return deliveries.isUnderWay(key) ? "A delivery is under way; ask again in a minute." : "";
  }

  private @Nullable LocalDate until(StoredTreatment stored) {
    if (!(reader.read(stored.bytes()) instanceof ReadResult.Accepted accepted)) {
      return null;
    }
    Treatment treatment = accepted.treatment();
    Completion completion = treatment.completion();
    if (completion == null || completion.status() == Completion.Status.IN_TREATMENT) {
      return null;
    }
    LocalDate decided = completion.decidedOn();
    LocalDate attended = completion.lastAttendedOn();
    LocalDate end = attended.isAfter(decided) ? attended : decided;
    return retention.until(end, treatment.patient().birthDate());
  }

  /**
   * Erases it, if it may be erased.
   *
   * @return how it stood before; empty where there is no such treatment
   * @throws org.intercusp.access.OutOfReach when the clinic is not the caller's
   */
  public Optional<Standing> erase(TreatmentKey key) {
    return Objects.requireNonNull(
        transaction.execute(
            status -> {
              Optional<Standing> before = standing(key);
              if (before.isPresent() && before.get().mayGo()) {
                deliveries.erase(key);
                archive.erase(key);
              }
              return before;
            }));
  }
}
