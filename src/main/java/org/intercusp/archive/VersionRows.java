package org.intercusp.archive;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import javax.sql.DataSource;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements of the archive, in SQL that H2 and PostgreSQL read alike. */
final class VersionRows {

  private static final String COLUMNS =
      "v.clinic_system, v.clinic_value, v.treatment_id, v.version, v.received_at, v.digest,"
          + " v.content";

  private static final String OF_KEY =
      " v.clinic_system = :system and v.clinic_value = :clinic and v.treatment_id = :id";

  private static final String NEWEST =
      "select "
          + COLUMNS
          + " from treatment t join treatment_version v on v.clinic_system = t.clinic_system"
          + " and v.clinic_value = t.clinic_value and v.treatment_id = t.treatment_id"
          + " and v.version = t.newest";

  private final JdbcClient jdbc;

  VersionRows(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  void first(StoredTreatment stored) {
    of(
            stored.key(),
            "insert into treatment (clinic_system, clinic_value, treatment_id, newest)"
                + " values (:system, :clinic, :id, 1)")
        .update();
    add(stored);
  }

  /** Adds a version behind the one before it, unless that is no longer the newest. */
  boolean next(StoredTreatment stored) {
    int moved =
        of(
                stored.key(),
                "update treatment set newest = :version where clinic_system = :system and"
                    + " clinic_value = :clinic and treatment_id = :id and newest = :before")
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
                + " values (:system, :clinic, :id, :version, :received, :digest, :content)")
        .param("version", stored.version())
        .param("received", stored.receivedAt().atOffset(ZoneOffset.UTC))
        .param("digest", stored.digest())
        .param("content", stored.content())
        .update();
  }

  Optional<StoredTreatment> newest(TreatmentKey key) {
    return of(key, NEWEST + " where" + OF_KEY).query(VersionRows::stored).optional();
  }

  Optional<StoredTreatment> version(TreatmentKey key, int version) {
    return of(key, versionsWhere(" and v.version = :version"))
        .param("version", version)
        .query(VersionRows::stored)
        .optional();
  }

  List<StoredTreatment> versions(TreatmentKey key) {
    return of(key, versionsWhere(" order by v.version desc")).query(VersionRows::stored).list();
  }

  List<TreatmentKey> withId(String treatment) {
    return jdbc.sql(
            "select clinic_system, clinic_value, treatment_id from treatment"
                + " where treatment_id = :id order by clinic_system, clinic_value")
        .param("id", treatment)
        .query((row, number) -> key(row))
        .list();
  }

  List<StoredTreatment> page(@Nullable TreatmentKey after, int length) {
    String order =
        " order by t.clinic_system, t.clinic_value, t.treatment_id fetch first :length rows only";
    if (after == null) {
      return jdbc.sql(NEWEST + order).param("length", length).query(VersionRows::stored).list();
    }
    String behind =
        " where (t.clinic_system, t.clinic_value, t.treatment_id) > (:system, :clinic, :id)";
    return of(after, NEWEST + behind + order)
        .param("length", length)
        .query(VersionRows::stored)
        .list();
  }

  long count() {
    return jdbc.sql("select count(*) from treatment").query(Long.class).single();
  }

  private static String versionsWhere(String more) {
    return "select " + COLUMNS + " from treatment_version v where" + OF_KEY + more;
  }

  private JdbcClient.StatementSpec of(TreatmentKey key, String sql) {
    return jdbc.sql(sql)
        .param("system", key.clinic().system())
        .param("clinic", key.clinic().value())
        .param("id", key.treatment());
  }

  private static StoredTreatment stored(ResultSet row, int number) throws SQLException {
    return new StoredTreatment(
        key(row),
        row.getInt("version"),
        row.getObject("received_at", OffsetDateTime.class).toInstant(),
        row.getString("digest"),
        row.getString("content"));
  }

  static TreatmentKey key(ResultSet row) throws SQLException {
    return new TreatmentKey(
        new Identifier(row.getString("clinic_system"), row.getString("clinic_value")),
        row.getString("treatment_id"));
  }
}
