package org.intercusp.audit;

import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import javax.sql.DataSource;
import org.intercusp.access.Caller;
import org.intercusp.access.Clinic;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.Reach;
import org.intercusp.access.Visit;
import org.intercusp.audit.AuditQuery.Place;
import org.jspecify.annotations.Nullable;

/**
 * The trail of deeds. A record takes part in the transaction of the deed on the same {@link
 * DataSource}, so that there is never one without the other: where it cannot be written, the deed
 * fails. Nothing here changes or removes a record.
 */
public final class AuditTrail {

  private final AuditRows rows;
  private final CurrentCaller callers;
  private final Clock clock;

  public AuditTrail(DataSource database, CurrentCaller callers, Clock clock) {
    this.rows = new AuditRows(database);
    this.callers = callers;
    this.clock = clock;
  }

  /** Whom the running thread works for. */
  public CurrentCaller callers() {
    return callers;
  }

  /** Records a deed that was done. */
  public void done(Deed deed, Thing thing) {
    done(deed, thing, "");
  }

  /**
   * Records a deed that was done.
   *
   * @param detail a few fixed words, nothing of a patient
   */
  public void done(Deed deed, Thing thing, String detail) {
    write(callers.visit(), deed, Outcome.SUCCESS, thing, detail);
  }

  /** Records that something was read; once for the same piece of work. */
  public void seen(Deed deed, Thing thing) {
    Visit visit = callers.visit();
    if (!visit.has(thing)) {
      write(visit, deed, Outcome.SUCCESS, thing, "");
      visit.note(thing);
    }
  }

  /**
   * Records how a deed ended.
   *
   * @param detail a few fixed words, nothing of a patient
   */
  public void ended(Deed deed, Outcome outcome, Thing thing, String detail) {
    write(callers.visit(), deed, outcome, thing, detail);
  }

  /**
   * Records a refusal of one who may not be known.
   *
   * @param network the address it came from; absent where it came from several
   * @param detail a few fixed words, nothing of a patient and nothing that the caller wrote
   */
  public void refused(Thing thing, @Nullable String network, String detail) {
    write(callers.visit(), Deed.REFUSE, Outcome.REFUSED, thing, detail, network);
  }

  /**
   * Records what became of something that was asked for before, in the name of who asked: its first
   * record says who. Where there is none it is the caller's.
   *
   * @param detail a few fixed words, nothing of a patient
   */
  public void followed(Deed deed, Outcome outcome, Thing thing, String detail) {
    Optional<AuditRecord> asked =
        thing.id() == null ? Optional.empty() : rows.first(thing.type(), thing.id());
    if (asked.isEmpty()) {
      write(callers.visit(), deed, outcome, thing, detail);
      return;
    }
    AuditRecord first = asked.get();
    rows.add(
        new AuditRecord(
            UUID.randomUUID().toString(),
            now(),
            deed,
            outcome,
            first.agent(),
            first.agentName(),
            first.agentKind(),
            first.thing(),
            first.request(),
            detail,
            null,
            first.network()));
  }

  /** The newest moment of which the caller may see a record; the epoch where there is none. */
  public Instant moment() {
    List<AuditRecord> newest = rows.newest(reach(), 1);
    return newest.isEmpty() ? Instant.EPOCH : newest.get(0).recordedAt();
  }

  /**
   * The records found that the caller may see, the newest first. What is written later is not among
   * them; what was being written at the moment of the query may come to lie before a place passed.
   */
  public List<AuditRecord> search(AuditQuery query, @Nullable Place after, int length) {
    return rows.newest(reach().of(query).after(after), length);
  }

  /** How many records are found that the caller may see. */
  public long count(AuditQuery query) {
    return rows.count(reach().of(query));
  }

  /** One record, if the caller may see it. */
  public Optional<AuditRecord> find(String id) {
    return rows.find(callers.condition("a"), id);
  }

  private AuditConditions reach() {
    return new AuditConditions(callers.condition("a"));
  }

  // PostgreSQL keeps microseconds: what is said now must equal what is read later.
  private Instant now() {
    return clock.instant().truncatedTo(ChronoUnit.MICROS);
  }

  private void write(Visit visit, Deed deed, Outcome outcome, Thing thing, String detail) {
    write(visit, deed, outcome, thing, detail, null);
  }

  private void write(
      Visit visit,
      Deed deed,
      Outcome outcome,
      Thing thing,
      String detail,
      @Nullable String network) {
    Caller caller = visit.caller();
    rows.add(
        new AuditRecord(
            UUID.randomUUID().toString(),
            now(),
            deed,
            outcome,
            caller.subject(),
            caller.name(),
            caller.kind().name().toLowerCase(Locale.ROOT),
            placed(thing, caller.reach()),
            visit.request(),
            detail,
            deed.hasQuery() ? visit.query() : null,
            network));
  }

  /** What is nobody's is the affair of the clinic of who asked, if they have just one. */
  private static Thing placed(Thing thing, Reach reach) {
    if (thing.clinic() == null && reach instanceof Reach.Clinics few) {
      Set<Clinic> clinics = few.clinics();
      if (clinics.size() == 1) {
        Clinic only = clinics.iterator().next();
        return new Thing(thing.type(), only, thing.id(), thing.version(), thing.recipient());
      }
    }
    return thing;
  }
}
