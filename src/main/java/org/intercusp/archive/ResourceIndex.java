package org.intercusp.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import javax.sql.DataSource;
import org.intercusp.access.Clinic;
import org.intercusp.access.Condition;
import org.intercusp.access.CurrentCaller;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Reads the resources that stored treatments say: every question about them is asked here, so that
 * whose they are is decided in one place: a caller finds the resources of the clinics in their
 * reach, the rest is not there for them, and what they saw stands in the trail. What was true at a
 * moment (a sequence) stays true: pages of a search at one moment neither lose nor repeat anything
 * while treatments change.
 */
public final class ResourceIndex {

  private static final String COLUMNS =
      "v.resource_type, v.logical_id, v.version, v.sequence, v.updated_at, v.clinic_system,"
          + " v.clinic_value, v.treatment_id, v.withdrawn, v.content";

  private static final String FROM =
      " from resource_version v join resource r on r.resource_type = v.resource_type and"
          + " r.logical_id = v.logical_id where ";

  private final JdbcClient jdbc;
  private final AuditTrail trail;

  /** For a program that one person runs for themselves: they reach everything. */
  public ResourceIndex(DataSource database, Clock clock) {
    this(database, new AuditTrail(database, CurrentCaller.withoutLogin(), clock));
  }

  /** For callers who reach what is theirs. */
  public ResourceIndex(DataSource database, AuditTrail trail) {
    this.jdbc = JdbcClient.create(database);
    this.trail = trail;
  }

  /** The newest moment there is in the caller's reach; 0 where nothing has been filed. */
  public long moment() {
    return asked("coalesce(max(v.sequence), 0)", new Conditions(), "").query(Long.class).single();
  }

  /** The newest version of a resource. */
  public Optional<FiledResource> current(String type, String id) {
    return read(of(type, id).and("v.version = r.newest"));
  }

  /** One version of a resource. */
  public Optional<FiledResource> version(String type, String id, int version) {
    return read(of(type, id).and("v.version = :version", "version", version));
  }

  /** Whether there is such a resource: nothing of it is seen. */
  public boolean has(String type, String id) {
    return asked("count(*)", of(type, id), "").query(Long.class).single() > 0;
  }

  private Optional<FiledResource> read(Conditions where) {
    Optional<FiledResource> found =
        asked(COLUMNS, where, "").query(ResourceIndex::filed).optional();
    found.ifPresent(one -> trail.seen(Deed.READ, thing(one)));
    return found;
  }

  private static Thing thing(FiledResource one) {
    Clinic clinic = one.treatment().reached();
    return Thing.of(one.type(), clinic, one.id()).version(one.version());
  }

  /** The newest versions of those of these resources that are there, in no order. */
  public List<FiledResource> currents(Collection<String> ids) {
    if (ids.isEmpty()) {
      return List.of();
    }
    Conditions where = new Conditions().and("v.version = r.newest").in("v.logical_id", ids);
    return asked(COLUMNS, where, "").query(ResourceIndex::filed).list();
  }

  /**
   * What was found at a moment, in the order of the logical ids.
   *
   * @param after the last logical id of the page before; absent for the first page
   */
  public List<FiledResource> search(
      ResourceQuery query, long moment, @Nullable String after, int length) {
    trail.seen(Deed.SEARCH, Thing.list(query.type()));
    Conditions where = Conditions.of(query, moment);
    if (after != null) {
      where.and("v.logical_id > :after", "after", after);
    }
    return asked(
            COLUMNS,
            where.with("length", length),
            " order by v.logical_id fetch first :length rows only")
        .query(ResourceIndex::filed)
        .list();
  }

  /** How many are found at a moment. */
  public long count(ResourceQuery query, long moment) {
    trail.seen(Deed.SEARCH, Thing.list(query.type()));
    return asked("count(*)", Conditions.of(query, moment), "").query(Long.class).single();
  }

  /**
   * Which versions a history is of.
   *
   * @param type absent: of every type
   * @param id absent: of every resource of the type
   * @param since absent: since ever
   * @param moment none written later
   */
  public record Past(
      @Nullable String type, @Nullable String id, @Nullable Instant since, long moment) {}

  /** A place in a history: what comes after it is older. */
  public record Place(long sequence, String type, String id) {}

  /** Versions, the newest first. */
  public List<FiledResource> history(Past past, @Nullable Place after, int length) {
    trail.seen(deed(past), thing(past));
    Conditions where = conditions(past);
    if (after != null) {
      where.and(
          "(v.sequence < :psequence or (v.sequence = :psequence and (v.resource_type > :ptype or"
              + " (v.resource_type = :ptype and v.logical_id > :pid))))",
          "psequence",
          after.sequence());
      where.with("ptype", after.type()).with("pid", after.id());
    }
    return asked(
            COLUMNS,
            where.with("length", length),
            " order by v.sequence desc, v.resource_type, v.logical_id"
                + " fetch first :length rows only")
        .query(ResourceIndex::filed)
        .list();
  }

  /** How many versions a history has. */
  public long count(Past past) {
    trail.seen(deed(past), thing(past));
    return asked("count(*)", conditions(past), "").query(Long.class).single();
  }

  private static Deed deed(Past past) {
    if (past.id() != null) {
      return Deed.HISTORY;
    }
    return past.type() == null ? Deed.HISTORY_OF_ALL : Deed.HISTORY_OF_TYPE;
  }

  private static Thing thing(Past past) {
    String type = past.type() == null ? "Resource" : past.type();
    return new Thing(type, null, past.id(), null, null);
  }

  /** The treatments whose plan speaks of a patient, in the order of their keys. */
  public List<TreatmentKey> treatments(String patient) {
    Conditions where =
        new Conditions()
            .and("v.version = r.newest")
            .and("v.patient = :patient", "patient", patient)
            .and("v.withdrawn = false");
    return asked(
            "distinct v.clinic_system, v.clinic_value, v.treatment_id",
            where,
            " order by v.clinic_system, v.clinic_value, v.treatment_id")
        .query((row, number) -> KeyColumns.read(row))
        .list();
  }

  private static Conditions of(String type, String id) {
    return new Conditions()
        .and("v.resource_type = :type", "type", type)
        .and("v.logical_id = :id", "id", id);
  }

  private static Conditions conditions(Past past) {
    Conditions where = new Conditions().and("v.sequence <= :moment", "moment", past.moment());
    if (past.type() != null) {
      where.and("v.resource_type = :type", "type", past.type());
    }
    if (past.id() != null) {
      where.and("v.logical_id = :id", "id", past.id());
    }
    if (past.since() != null) {
      where.and("v.updated_at >= :since", "since", past.since().atOffset(ZoneOffset.UTC));
    }
    return where;
  }

  /** The one statement behind every question, within the caller's reach. */
  private JdbcClient.StatementSpec asked(String what, Conditions where, String behind) {
    Condition reach = trail.callers().condition("v");
    return jdbc.sql("select " + what + FROM + reach.sql() + " and " + where.text() + behind)
        .params(reach.params())
        .params(where.params());
  }

  private static FiledResource filed(ResultSet row, int number) throws SQLException {
    return new FiledResource(
        row.getString("resource_type"),
        row.getString("logical_id"),
        row.getInt("version"),
        row.getLong("sequence"),
        row.getObject("updated_at", OffsetDateTime.class).toInstant(),
        KeyColumns.read(row),
        row.getBoolean("withdrawn"),
        row.getString("content"));
  }
}
