package org.intercusp.web.api;

import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.queue.Queueing;
import org.intercusp.exchange.queue.StoringAndQueueing;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.jspecify.annotations.Nullable;

/** Takes treatment files in: read strictly, stored whole or not at all, examined. */
public final class Intake {

  private final TreatmentReader reader;
  private final TreatmentWriter writer;
  private final Examiner examiner;
  private final StoringAndQueueing storing;
  private final Clock clock;

  public Intake(
      TreatmentReader reader,
      TreatmentWriter writer,
      Examiner examiner,
      StoringAndQueueing storing,
      Clock clock) {
    this.reader = reader;
    this.writer = writer;
    this.examiner = examiner;
    this.storing = storing;
    this.clock = clock;
  }

  /** What became of a file. */
  public sealed interface Taken {

    /** It could not be read, for these reasons. */
    record Unreadable(List<Finding> faults) implements Taken {}

    /** It was read and put to the archive; examined only where it is now what the archive holds. */
    record Filed(Treatment treatment, Storing storing, List<Queueing> deliveries) implements Taken {
      public Filed {
        deliveries = List.copyOf(deliveries);
      }
    }
  }

  /** Stores a new treatment and queues it for these recipients, both or neither. */
  public Taken store(byte[] utf8, List<String> to) {
    return filed(utf8, (key, content) -> storing.store(key, content, to));
  }

  /**
   * Replaces the version the caller last saw of the treatment at {@code key}, and queues the newest
   * for these recipients, both or neither.
   */
  public Taken replace(TreatmentKey key, int expected, byte[] utf8, List<String> to) {
    return filed(
        utf8,
        (own, content) -> {
          if (!own.equals(key)) {
            throw new OtherTreatment();
          }
          return storing.replace(key, expected, content, to);
        });
  }

  /**
   * Stores a treatment that was put together here, over the version it was made from. Who holds it
   * is told where its consent has ended, as of any other filing.
   */
  Storing keep(TreatmentKey key, @Nullable StoredTreatment before, Treatment treatment) {
    byte[] content = writer.write(treatment);
    StoringAndQueueing.Taken taken =
        before == null
            ? storing.store(key, content, List.of())
            : storing.replace(key, before.version(), content, List.of());
    return taken.storing();
  }

  /** Reads and examines without keeping anything. */
  ReadResult read(byte[] utf8) {
    return reader.read(utf8);
  }

  /** Computes and checks. */
  public Examination examine(Treatment treatment) {
    return examiner.examine(treatment, day(treatment));
  }

  /** Examines what is stored, which is always readable. */
  public Examination examine(StoredTreatment stored) {
    return examine(treatment(stored));
  }

  /** The treatment of a stored version. */
  public Treatment treatment(StoredTreatment stored) {
    return stored.read(reader);
  }

  /** The day a record is judged at: what it speaks of, else today. */
  public LocalDate day(Treatment treatment) {
    return treatment.dayOr(LocalDate.now(clock));
  }

  private interface Filing {
    StoringAndQueueing.Taken file(TreatmentKey key, byte[] content);
  }

  private Taken filed(byte[] utf8, Filing filing) {
    ReadResult result = reader.read(utf8);
    if (result instanceof ReadResult.Refused refused) {
      return new Taken.Unreadable(refused.faults());
    }
    Treatment treatment = ((ReadResult.Accepted) result).treatment();
    TreatmentKey key = Lookup.key(treatment.clinic().identifier(), treatment.id());
    StoringAndQueueing.Taken taken = filing.file(key, writer.write(treatment));
    return new Taken.Filed(treatment, taken.storing(), taken.deliveries());
  }

  /** A file was sent to the path of another treatment. */
  static final class OtherTreatment extends RuntimeException {
    private static final long serialVersionUID = 1L;
  }
}
