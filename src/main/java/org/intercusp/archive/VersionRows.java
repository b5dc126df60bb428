package org.intercusp.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javax.sql.DataSource;
import org.intercusp.access.Clinic;
import org.intercusp.access.Condition;
import org.intercusp.access.CurrentCaller;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * The statements of the archive, in SQL that H2 and PostgreSQL read alike. Each holds the condition
 * of the caller's reach.
 */
final class VersionRows {

  private static final String COLUMNS =
      "v.clinic_system, v.clinic_value, v.treatment_id, v.version, v.received_at, v.digest,"
          + " v.content";

  private static final String OF_KEY = " " + KeyColumns.areGiven("v");

  private static final String NEWEST =
      "select "
          + COLUMNS
          + " from treatment t join treatment_version v on v.clinic_system = t.clinic_system"
          + " and v.clinic_value = t.clinic_value and v.treatment_id = t.treatment_id"
          + " and v.version = t.newest";

  /** Stands in a statement for the condition of the caller's reach. */
  private static final String WITHIN = " where {reach}";

  private static final String VERSIONS =
      "select "
          + COLUMNS
          + " from treatment_version v"
          + WITHIN
          + " and v.content <> '' and"
          + OF_KEY;

  private final JdbcClient jdbc;
  private final CurrentCaller callers;

  VersionRows(DataSource database, CurrentCaller callers) {
    this.jdbc = JdbcClient.create(database);
    this.callers = callers;
  }

  void first(StoredTreatment stored) {
    callers.mustReach(stored.key().reached());
    of(
            stored.key(),
            "insert into treatment (clinic_system, clinic_value, treatment_id, newest)"
                + " values (:system, :clinic, :treatment, 1)")
        .update();
    add(stored);
  }

  /** Adds a version behind the one before it, unless that is no longer the newest. */
  boolean next(StoredTreatment stored) {
    callers.mustReach(stored.key().reached());
    int moved =
        of(
                stored.key(),
                "update treatment set newest = :version where "
                    + KeyColumns.ARE_GIVEN
                    + " and newest = :before")
            .param("version", stored.version())
            .param("before", stored.version() - 1)
            .update();
    if (moved == 1) {
      add(stored);
    }
    return moved == 1;
  }

  private void add(StoredTreatment stored) {
    of(
            stored.key(),
            "insert into treatment_version (clinic_system, clinic_value, treatment_id, version,"
                + " received_at, digest, content)"
                + " values (:system, :clinic, :treatment, :version, :received, :digest, :content)")
        .param("version", stored.version())
        .param("received", stored.receivedAt().atOffset(ZoneOffset.UTC))
        .param("digest", stored.digest())
        .param("content", stored.content())
        .update();
  }

  Optional<StoredTreatment> newest(TreatmentKey key) {
    return reached(key, NEWEST + WITHIN + " and" + OF_KEY, "v")
        .query(VersionRows::stored)
        .optional();
  }

  Optional<StoredTreatment> version(TreatmentKey key, int version) {
    return reached(key, VERSIONS + " and v.version = :version", "v")
        .param("version", version)
        .query(VersionRows::stored)
        .optional();
  }

  List<StoredTreatment> versions(TreatmentKey key) {
    return reached(key, VERSIONS + " order by v.version desc", "v")
        .query(VersionRows::stored)
        .list();
  }

  List<TreatmentKey> withId(String treatment) {
    return reached(
            "select t.clinic_system, t.clinic_value, t.treatment_id from treatment t"
                + WITHIN
                + " and t.newest > 0 and t.treatment_id = :id order by t.clinic_system, t.clinic_value",
            "t")
        .param("id", treatment)
        .query((row, number) -> KeyColumns.read(row))
        .list();
  }

  Set<Clinic> clinics() {
    return Set.copyOf(
        reached("select distinct t.clinic_system, t.clinic_value from treatment t" + WITHIN, "t")
            .query((row, number) -> new Clinic(row.getString(1), row.getString(2)))
            .list());
  }

  List<StoredTreatment> page(@Nullable TreatmentKey after, int length) {
    String order =
        " order by t.clinic_system, t.clinic_value, t.treatment_id fetch first :length rows only";
    String behind =
        " and (t.clinic_system, t.clinic_value, t.treatment_id) > (:system, :clinic, :treatment)";
    JdbcClient.StatementSpec statement =
        after == null
            ? reached(NEWEST + WITHIN + order, "t")
            : reached(after, NEWEST + WITHIN + behind + order, "t");
    return statement.param("length", length).query(VersionRows::stored).list();
  }

  long count() {
    return reached("select count(*) from treatment t" + WITHIN + " and t.newest > 0", "t")
        .query(Long.class)
        .single();
  }

  private JdbcClient.StatementSpec reached(TreatmentKey key, String sql, String alias) {
    return KeyColumns.bind(reached(sql, alias), key);
  }

  private JdbcClient.StatementSpec reached(String sql, String alias) {
    Condition reach = callers.condition(alias);
    return jdbc.sql(sql.replace(WITHIN, " where " + reach.sql())).params(reach.params());
  }

  private JdbcClient.StatementSpec of(TreatmentKey key, String sql) {
    return KeyColumns.bind(jdbc.sql(sql), key);
  }

  private static StoredTreatment stored(ResultSet row, int number) throws SQLException {
    return new StoredTreatment(
        KeyColumns.read(row),
        row.getInt("version"),
        row.getObject("received_at", OffsetDateTime.class).toInstant(),
        row.getString("digest"),
        row.getString("content"));
  }
}
