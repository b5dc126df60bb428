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
import org.jspecify.annotations.Nullable;

/**
 * The trail of deeds. A record takes part in the transaction of the deed on the same {@link
 * DataSource}, so that there is never one without the other: where it cannot be written, the deed
 * fails. Nothing here changes or removes a record.
 */
public final class AuditTrail {

  /** The longest page; common practice, no source. */
  public static final int LONGEST_PAGE = 500;

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

  /** The records the caller may see, the newest first. */
  public List<AuditRecord> newest(@Nullable AuditRecord after, int length) {
    if (length < 1 || length > LONGEST_PAGE) {
      throw new IllegalArgumentException("A page has 1 to " + LONGEST_PAGE + " records");
    }
    return rows.newest(callers.condition("a"), after, length);
  }

  /** One record, if the caller may see it. */
  public Optional<AuditRecord> find(String id) {
    return rows.find(callers.condition("a"), id);
  }

  private void write(Visit visit, Deed deed, Outcome outcome, Thing thing, String detail) {
    Caller caller = visit.caller();
    // PostgreSQL keeps microseconds: what is said now must equal what is read later.
    Instant now = clock.instant().truncatedTo(ChronoUnit.MICROS);
    rows.add(
        new AuditRecord(
            UUID.randomUUID().toString(),
            now,
            deed,
            outcome,
            caller.subject(),
            caller.name(),
            caller.kind().name().toLowerCase(Locale.ROOT),
            placed(thing, caller.reach()),
            visit.request(),
            detail));
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
