package org.intercusp.exchange.records;

import java.time.Duration;
import java.util.List;
import org.intercusp.exchange.wire.Difficulty;
import org.jspecify.annotations.Nullable;

/** How an attempt to deliver ended. */
public sealed interface DeliveryResult {

  /** The server holds what was sent. */
  record Delivered(DeliveryReport report) implements DeliveryResult {}

  /**
   * It does not, or not all of it.
   *
   * @param reason one sentence for a person
   * @param status HTTP status, 0 where there was none
   * @param words the server's own words, empty where it said nothing
   * @param retryAfter when the server asked to come again
   * @param written what is known to have been written before it ended, {@code Type/id}
   */
  record Failed(
      Difficulty difficulty,
      String reason,
      int status,
      String words,
      @Nullable Duration retryAfter,
      List<String> written)
      implements DeliveryResult {

    public Failed {
      written = List.copyOf(written);
    }
  }

  /**
   * Nothing was written: what was delivered before has been changed on the server since, and now
   * again by the clinic, or it was deleted there. A person has to decide.
   *
   * @param beyond what is another there, for whoever decides
   * @param origins the resources that say so
   * @param deleted what was deleted
   */
  record Conflicting(
      List<DeliveryReport.Difference> differences,
      List<Beyond> beyond,
      List<Origin> origins,
      List<Ledger.Line> deleted)
      implements DeliveryResult {
    public Conflicting {
      differences = List.copyOf(differences);
      beyond = List.copyOf(beyond);
      origins = List.copyOf(origins);
      deleted = List.copyOf(deleted);
    }
  }
}
