package org.intercusp.archive;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import javax.sql.DataSource;
import org.apache.commons.codec.digest.DigestUtils;
import org.intercusp.archive.Expression.Expressed;
import org.intercusp.treatment.Identifier;
import org.jspecify.annotations.Nullable;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.namedparam.MapSqlParameterSource;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.jdbc.core.namedparam.SqlParameterSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.support.GeneratedKeyHolder;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.TransactionDefinition;
import org.springframework.transaction.support.TransactionTemplate;

/** The statements that file resources, for one clinic at a time. */
final class ResourceRows {

  /** What the newest version of a version row is superseded by: nothing yet. */
  static final long NEVER = Long.MAX_VALUE;

  /** Ids of one statement; common practice, no source. */
  private static final int CHUNK = 500;

  private static final String OF_TREATMENT = " " + KeyColumns.ARE_GIVEN;

  private final JdbcClient jdbc;
  private final NamedParameterJdbcTemplate batches;
  private final TransactionTemplate savepoint;

  ResourceRows(DataSource database) {
    this.jdbc = JdbcClient.create(database);
    this.batches = new NamedParameterJdbcTemplate(database);
    this.savepoint = new TransactionTemplate(new JdbcTransactionManager(database));
    savepoint.setPropagationBehavior(TransactionDefinition.PROPAGATION_NESTED);
  }

  /** The newest version of a resource, and which it is of. */
  record Newest(
      String type,
      String id,
      boolean shared,
      int version,
      @Nullable String patient,
      String digest,
      String content) {
    Ref ref() {
      return new Ref(type, id);
    }
  }

  /** What names a resource. */
  record Ref(String type, String id) {
    static Ref of(Expressed expressed) {
      return new Ref(expressed.type(), expressed.id());
    }
  }

  /** A version to be written. */
  record Written(
      Ref ref,
      int version,
      @Nullable String patient,
      boolean withdrawn,
      String content,
      ResourceTerms terms) {}

  /** Waits until nobody else files in this clinic, to the end of the transaction. */
  Instant lock(Identifier clinic, Instant now) {
    try {
      savepoint.executeWithoutResult(
          status ->
              of(
                      clinic,
                      "insert into resource_clinic (clinic_system, clinic_value, filed_at)"
                          + " select :system, :clinic, :now where not exists (select 1 from"
                          + " resource_clinic where clinic_system = :system and clinic_value ="
                          + " :clinic)")
                  .param("now", now.atOffset(ZoneOffset.UTC))
                  .update());
    } catch (DuplicateKeyException e) {
      // Another one made the row first: it is locked below like any other.
    }
    Instant last =
        of(
                clinic,
                "select filed_at from resource_clinic where clinic_system = :system and"
                    + " clinic_value = :clinic for update")
            .query((row, number) -> row.getObject(1, OffsetDateTime.class).toInstant())
            .single();
    // Two requests may have read the clock in another order than they got here.
    Instant later = last.isAfter(now) ? last : now;
    of(
            clinic,
            "update resource_clinic set filed_at = :now where clinic_system = :system and"
                + " clinic_value = :clinic")
        .param("now", later.atOffset(ZoneOffset.UTC))
        .update();
    return later;
  }

  /** The versions of a treatment that have not been filed, the oldest first. */
  List<Integer> unfiled(TreatmentKey key) {
    return of(
            key,
            "select v.version from treatment_version v where "
                + KeyColumns.areGiven("v")
                + " and not exists (select 1 from"
                + " resource_filing f where f.clinic_system = v.clinic_system and f.clinic_value ="
                + " v.clinic_value and f.treatment_id = v.treatment_id and f.version = v.version)"
                + " order by v.version")
        .query(Integer.class)
        .list();
  }

  /** Some treatments that have versions to file, in the order of their keys. */
  List<TreatmentKey> unfiledTreatments(@Nullable TreatmentKey after, int length) {
    String behind =
        " and (v.clinic_system, v.clinic_value, v.treatment_id) > (:system, :clinic, :treatment)";
    JdbcClient.StatementSpec asked =
        jdbc.sql(
                "select distinct v.clinic_system, v.clinic_value, v.treatment_id from"
                    + " treatment_version v where not exists (select 1 from resource_filing f where"
                    + " f.clinic_system = v.clinic_system and f.clinic_value = v.clinic_value and"
                    + " f.treatment_id = v.treatment_id and f.version = v.version)"
                    + (after == null ? "" : behind)
                    + " order by v.clinic_system, v.clinic_value, v.treatment_id"
                    + " fetch first :length rows only")
            .param("length", length);
    if (after != null) {
      asked = KeyColumns.bind(asked, after);
    }
    return asked.query((row, number) -> KeyColumns.read(row)).list();
  }

  /** Notes that the resources of a version are being filed, and tells its sequence. */
  long filing(TreatmentKey key, int version) {
    GeneratedKeyHolder holder = new GeneratedKeyHolder();
    of(
            key,
            "insert into resource_filing (clinic_system, clinic_value, treatment_id, version)"
                + " values (:system, :clinic, :treatment, :version)")
        .param("version", version)
        .update(holder, "sequence");
    return Objects.requireNonNull(holder.getKey()).longValue();
  }

  /** What a treatment says at the moment: the digest of each content. */
  Map<Ref, String> sources(TreatmentKey key) {
    Map<Ref, String> sources = new HashMap<>();
    of(key, "select resource_type, logical_id, digest from resource_source where" + OF_TREATMENT)
        .query(
            row -> {
              sources.put(new Ref(row.getString(1), row.getString(2)), row.getString(3));
            });
    return sources;
  }

  /** The newest versions of those of these resources that are there. */
  Map<Ref, Newest> newest(Identifier clinic, Collection<Ref> refs) {
    Map<Ref, Newest> found = new HashMap<>();
    List<String> ids = refs.stream().map(Ref::id).distinct().toList();
    for (int from = 0; from < ids.size(); from += CHUNK) {
      of(
              clinic,
              "select r.resource_type, r.logical_id, r.shared, v.version, v.patient, v.digest, v.content from"
                  + " resource r join resource_version v on v.resource_type = r.resource_type and"
                  + " v.logical_id = r.logical_id and v.version = r.newest where r.clinic_system ="
                  + " :system and r.clinic_value = :clinic and r.logical_id in (:ids)")
          .param("ids", ids.subList(from, Math.min(ids.size(), from + CHUNK)))
          .query(
              (row, number) ->
                  new Newest(
                      row.getString(1),
                      row.getString(2),
                      row.getBoolean(3),
                      row.getInt(4),
                      row.getString(5),
                      row.getString(6),
                      row.getString(7)))
          .list()
          .forEach(one -> found.put(one.ref(), one));
    }
    return found;
  }

  void addResources(Identifier clinic, List<Expressed> fresh) {
    batch(
        "insert into resource (resource_type, logical_id, clinic_system, clinic_value,"
            + " identifier_system, identifier_value, identifier_key, shared, newest) values (:type,"
            + " :logical, :system, :clinic, :isystem, :ivalue, :ikey, :shared, 1)",
        fresh.stream()
            .map(
                one ->
                    params(clinic, Ref.of(one))
                        .addValue("isystem", one.identifier().system())
                        .addValue("ivalue", one.identifier().value())
                        .addValue("ikey", DigestUtils.sha256Hex(one.identifier().value()))
                        .addValue("shared", one.shared()))
            .toList());
  }

  /**
   * Adds versions.
   *
   * @param termsForm the form of what they are searched by
   */
  void addVersions(
      TreatmentKey key,
      int treatmentVersion,
      long sequence,
      Instant at,
      int termsForm,
      List<Written> versions) {
    List<MapSqlParameterSource> rows = new ArrayList<>();
    for (Written one : versions) {
      MapSqlParameterSource row =
          params(key.clinic(), one.ref())
              .addValue("version", one.version())
              .addValue("before", one.version() - 1)
              .addValue("treatment", key.treatment())
              .addValue("tversion", treatmentVersion)
              .addValue("sequence", sequence)
              .addValue("never", NEVER)
              .addValue("at", at.atOffset(ZoneOffset.UTC))
              .addValue("patient", one.patient())
              .addValue("withdrawn", one.withdrawn())
              .addValue("digest", DigestUtils.sha256Hex(one.content()))
              .addValue("content", one.content())
              .addValue("form", termsForm);
      rows.add(TermRows.add(row, one.terms()));
    }
    String ofResource = " where resource_type = :type and logical_id = :logical";
    batch("update resource set newest = :version" + ofResource, rows);
    batch(
        "update resource_version set superseded = :sequence"
            + ofResource
            + " and version = :before",
        rows);
    batch(
        "insert into resource_version (resource_type, logical_id, version, clinic_system,"
            + " clinic_value, treatment_id, treatment_version, sequence, superseded, updated_at,"
            + " patient, withdrawn, digest, content, codes, begins, ends, terms_form) values (:type, :logical, :version, :system,"
            + " :clinic, :treatment, :tversion, :sequence, :never, :at, :patient, :withdrawn, :digest,"
            + " :content, :codes, :begins, :ends, :form)",
        rows);
  }

  void removeSources(TreatmentKey key, Collection<Ref> refs) {
    batch(
        "delete from resource_source where resource_type = :type and logical_id = :logical and"
            + " treatment_id = :treatment",
        refs.stream()
            .map(ref -> params(key.clinic(), ref).addValue("treatment", key.treatment()))
            .toList());
  }

  void addSources(TreatmentKey key, Map<Ref, String> digests) {
    batch(
        "insert into resource_source (resource_type, logical_id, clinic_system, clinic_value,"
            + " treatment_id, digest) values (:type, :logical, :system, :clinic, :treatment, :digest)",
        digests.entrySet().stream()
            .map(
                entry ->
                    params(key.clinic(), entry.getKey())
                        .addValue("treatment", key.treatment())
                        .addValue("digest", entry.getValue()))
            .toList());
  }

  private void batch(String sql, List<MapSqlParameterSource> rows) {
    if (!rows.isEmpty()) {
      batches.batchUpdate(sql, rows.toArray(SqlParameterSource[]::new));
    }
  }

  private static MapSqlParameterSource params(Identifier clinic, Ref ref) {
    return new MapSqlParameterSource()
        .addValue("type", ref.type())
        .addValue("logical", ref.id())
        .addValue("system", clinic.system())
        .addValue("clinic", clinic.value());
  }

  private JdbcClient.StatementSpec of(TreatmentKey key, String sql) {
    return KeyColumns.bind(jdbc.sql(sql), key);
  }

  private JdbcClient.StatementSpec of(Identifier clinic, String sql) {
    return jdbc.sql(sql).param("system", clinic.system()).param("clinic", clinic.value());
  }
}
