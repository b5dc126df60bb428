package org.intercusp.exchange.proposal;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.LocalDate;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import javax.sql.DataSource;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.Storing;
import org.intercusp.archive.TreatmentArchive;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.intercusp.exchange.proposal.Proposal.Change;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposal.State;
import org.intercusp.exchange.queue.Deliveries;
import org.intercusp.exchange.queue.LedgerRows;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * What recipients' people changed, for the clinic to accept or decline. Accepting makes a version
 * in place of the one that was looked at and of no other, through the same reader as every file;
 * the next delivery then starts from what the recipient has.
 */
public final class Proposals {

  private final ProposalRows rows;
  private final Decisions decisions;
  private final TreatmentArchive archive;
  private final Deliveries deliveries;
  private final AuditTrail trail;
  private final TransactionTemplate transaction;
  private final Clock clock;
  private final TreatmentReader reader = new TreatmentReader();
  private final TreatmentWriter writer = new TreatmentWriter();

  public Proposals(
      DataSource database,
      TreatmentArchive archive,
      Deliveries deliveries,
      AuditTrail trail,
      Clock clock) {
    this.rows = new ProposalRows(database, trail.callers());
    this.decisions = new Decisions(rows, new LedgerRows(database));
    this.archive = archive;
    this.deliveries = deliveries;
    this.trail = trail;
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
    this.clock = clock;
  }

  /** What became of a decision. */
  public sealed interface Decision {

    /**
     * It is decided.
     *
     * @param version the version it made; absent where there was nothing to change, and when it was
     *     declined
     */
    record Done(Proposal proposal, @Nullable StoredTreatment version) implements Decision {}

    /** Another version was stored meanwhile; nothing was written. */
    record Stale(StoredTreatment newest) implements Decision {}

    /** It was decided or overtaken before. */
    record Closed(Proposal proposal) implements Decision {}

    /** There is no such proposal. */
    record Absent() implements Decision {}

    /** With it, the file could not be read, for these reasons; nothing was written. */
    record Unreadable(List<Finding> faults) implements Decision {
      public Unreadable {
        faults = List.copyOf(faults);
      }
    }

    /** The place it is about is no longer in the file; nothing was written. */
    record Placeless(Proposal proposal) implements Decision {}
  }

  /** All of a treatment, the newest first. */
  public List<Proposal> of(TreatmentKey key) {
    trail.seen(Deed.SEARCH, Thing.of("Proposal", key.reached(), key.treatment()));
    return rows.of(key);
  }

  /** One of them. */
  public Optional<Proposal> find(TreatmentKey key, int number) {
    trail.seen(Deed.READ, Thing.of("Proposal", key.reached(), key.treatment()));
    return rows.find(key, number);
  }

  /** What a version says at a place now; absent where nothing is there. */
  public static Optional<JsonNode> at(StoredTreatment stored, String path) {
    return Placing.at(Placing.JSON.readTree(stored.bytes()), path);
  }

  /**
   * The version that accepting would make, not kept.
   *
   * @param supplied what the recipient does not say, from the place of the change on
   * @return empty where it could not be read or has no place
   */
  public Optional<StoredTreatment> preview(
      Proposal proposal, StoredTreatment current, JsonNode supplied) {
    return changed(proposal, current, supplied)
        .map(reader::read)
        .filter(ReadResult.Accepted.class::isInstance)
        .map(read -> writer.write(((ReadResult.Accepted) read).treatment()))
        .map(
            bytes ->
                new StoredTreatment(
                    current.key(),
                    current.version() + 1,
                    clock.instant(),
                    "",
                    new String(bytes, StandardCharsets.UTF_8)));
  }

  /**
   * Accepts one.
   *
   * @param expected the version that it was compared with
   * @param supplied what the recipient does not say and the file asks for; empty where nothing
   *     lacks
   */
  public Decision accept(TreatmentKey key, int number, int expected, JsonNode supplied) {
    return decided(key, number, proposal -> accepted(proposal, expected, supplied));
  }

  private Decision accepted(Proposal proposal, int expected, JsonNode supplied) {
    if (proposal.content().changes().isEmpty()) {
      return close(proposal, State.ACCEPTED, null);
    }
    StoredTreatment current = archive.current(proposal.treatment()).orElseThrow();
    if (current.version() != expected) {
      return new Decision.Stale(current);
    }
    Optional<byte[]> file = changed(proposal, current, supplied);
    if (file.isEmpty()) {
      return new Decision.Placeless(proposal);
    }
    ReadResult read = reader.read(file.get());
    if (read instanceof ReadResult.Refused refused) {
      return new Decision.Unreadable(refused.faults());
    }
    byte[] canonical = writer.write(((ReadResult.Accepted) read).treatment());
    // Before the filing of the whole clinic is held, as with every version that is stored.
    deliveries.foresee(archive.coming(proposal.treatment(), expected + 1, canonical), List.of());
    Storing storing = archive.replace(proposal.treatment(), expected, canonical);
    if (storing instanceof Storing.Stale stale) {
      return new Decision.Stale(stale.newest());
    }
    StoredTreatment made = storing instanceof Storing.Stored stored ? stored.version() : current;
    if (storing instanceof Storing.Stored) {
      // What one recipient says may be a sign of harm that all must know of, or end the consent
      // with which others were given the treatment.
      deliveries.alarm(made, List.of());
      deliveries.tell(made, List.of());
    }
    return close(proposal, State.ACCEPTED, made);
  }

  /**
   * Declines one: what the clinic has is to stand. It comes again only when the recipient's content
   * is another.
   */
  public Decision decline(TreatmentKey key, int number) {
    return decided(key, number, proposal -> close(proposal, State.DECLINED, null));
  }

  private interface Deciding {
    Decision on(Proposal proposal);
  }

  private Decision decided(TreatmentKey key, int number, Deciding deciding) {
    return Objects.requireNonNull(
        transaction.execute(
            status -> {
              rows.hold(key);
              Optional<Proposal> proposal = rows.find(key, number);
              if (proposal.isEmpty()) {
                return new Decision.Absent();
              }
              return proposal.get().state() == State.OPEN
                  ? deciding.on(proposal.get())
                  : new Decision.Closed(proposal.get());
            }));
  }

  private Decision close(Proposal proposal, State state, @Nullable StoredTreatment made) {
    String by = trail.callers().caller().name();
    Integer version = made == null ? null : made.version();
    rows.decide(proposal, state, by, version, "", clock.instant().truncatedTo(ChronoUnit.MICROS));
    Proposal decided = rows.find(proposal.treatment(), proposal.number()).orElseThrow();
    decisions.take(decided);
    Thing thing = thing(proposal);
    trail.done(Deed.UPDATE, version == null ? thing : thing.version(version), state.code());
    return new Decision.Done(decided, made);
  }

  static Thing thing(Proposal proposal) {
    TreatmentKey key = proposal.treatment();
    return Thing.of("Proposal", key.reached(), key.treatment()).to(proposal.recipient());
  }

  private Optional<byte[]> changed(Proposal proposal, StoredTreatment current, JsonNode supplied) {
    ObjectNode file = (ObjectNode) Placing.JSON.readTree(current.bytes());
    for (Change change : proposal.content().changes()) {
      JsonNode after = change.after();
      JsonNode value = after == null ? null : after.deepCopy();
      if (value instanceof ObjectNode object) {
        for (String lacking : change.lacking()) {
          Placing.at(supplied, "/" + lacking)
              .ifPresent(given -> Placing.put(object, "/" + lacking, given));
        }
      }
      if (!Placing.put(file, change.path(), value)) {
        return Optional.empty();
      }
    }
    today(proposal, file);
    return Optional.of(file.toString().getBytes(StandardCharsets.UTF_8));
  }

  /** A record that speaks of an earlier day speaks of today once something is done in it. */
  private void today(Proposal proposal, ObjectNode file) {
    String today = LocalDate.now(clock).toString();
    String asOf = file.path("asOf").asString("");
    if (proposal.kind() == Kind.CHANGE && !asOf.isEmpty() && asOf.compareTo(today) < 0) {
      file.put("asOf", today);
    }
  }
}
