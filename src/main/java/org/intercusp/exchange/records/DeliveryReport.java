package org.intercusp.exchange.records;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * What a server holds after a delivery, as found by searching it.
 *
 * @param way how it was written
 * @param entries one for each resource sent or withdrawn
 * @param differences where the stored resources say something else than was sent
 * @param duplicates identifiers that the server holds more than once
 * @param digest digest of the content and the recipient, the tag of the delivery's Provenance
 * @param ledger what to remember of it for the next delivery
 */
public record DeliveryReport(
    String server,
    Way way,
    List<Entry> entries,
    List<Difference> differences,
    List<Duplicate> duplicates,
    String digest,
    Ledger ledger) {

  public DeliveryReport {
    entries = List.copyOf(entries);
    differences = List.copyOf(differences);
    duplicates = List.copyOf(duplicates);
  }

  /** How a delivery was written. */
  public enum Way {
    /** Nothing had to be. */
    NOTHING,
    /** One transaction whose entries are conditional. */
    CONDITIONAL_TRANSACTION,
    /** One transaction, its conditions checked by searching before. */
    TRANSACTION,
    /** Batches in the order of dependency. */
    BATCHES,
    /** One resource after the other in the order of dependency. */
    SINGLE
  }

  /** What became of a resource. */
  public enum Outcome {
    CREATED,
    UPDATED,
    UNCHANGED,
    /** Marked as entered in error, since the element it stood for went away. */
    MARKED,
    /** Found on the server and left as it is there: it belongs to others too. */
    KEPT,
    /** Deleted by the server's people, and left so because the clinic decided that. */
    LEFT,
    /** Not found again after writing. */
    MISSING;

    /** Lower case, for people and machines. */
    public String code() {
      return name().toLowerCase(Locale.ROOT);
    }
  }

  /** One resource. */
  public record Entry(
      String type,
      String system,
      String value,
      @Nullable String id,
      @Nullable String version,
      Outcome outcome) {}

  /** One place where sent and stored differ; a side is absent where it has nothing there. */
  public record Difference(
      String type,
      String system,
      String value,
      String path,
      @Nullable String sent,
      @Nullable String stored) {}

  /** One identifier that more than one resource has. */
  public record Duplicate(String type, String system, String value, List<String> ids) {
    public Duplicate {
      ids = List.copyOf(ids);
    }
  }

  /** How many resources had this outcome. */
  public long count(Outcome outcome) {
    return entries.stream().filter(entry -> entry.outcome() == outcome).count();
  }
}
