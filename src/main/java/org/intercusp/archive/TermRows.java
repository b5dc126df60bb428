package org.intercusp.archive;

import java.sql.Types;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.namedparam.MapSqlParameterSource;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.jdbc.core.namedparam.SqlParameterSource;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements that keep what versions of resources are searched by. */
final class TermRows {

  private static final String OF_VERSION =
      " where resource_type = :type and logical_id = :logical and version = :version";

  private final JdbcClient jdbc;
  private final NamedParameterJdbcTemplate batches;

  TermRows(DataSource database) {
    this.jdbc = JdbcClient.create(database);
    this.batches = new NamedParameterJdbcTemplate(database);
  }

  /** What names a version of a resource. */
  record VersionRef(String type, String id, int version) {
    private MapSqlParameterSource params() {
      return new MapSqlParameterSource()
          .addValue("type", type)
          .addValue("logical", id)
          .addValue("version", version);
    }
  }

  /** A version, and what it is searched by. */
  record Found(VersionRef ref, ResourceTerms terms) {}

  /** A version whose terms stand in an older form, with its content. */
  record Outdated(VersionRef ref, String content) {}

  /** Keeps the terms of versions that have none yet. */
  void add(List<Found> versions, int form) {
    List<MapSqlParameterSource> codes = new ArrayList<>();
    List<MapSqlParameterSource> times = new ArrayList<>();
    for (Found one : versions) {
      one.terms().codes().forEach(code -> codes.add(params(one.ref(), code)));
      one.terms().times().forEach(time -> times.add(params(one.ref(), time)));
    }
    batch(
        "insert into resource_code (resource_type, logical_id, version, name, code_system, code)"
            + " values (:type, :logical, :version, :name, :system, :code)",
        codes);
    batch(
        "insert into resource_time (resource_type, logical_id, version, name, begins, ends)"
            + " values (:type, :logical, :version, :name, :begins, :ends)",
        times);
    batch(
        "update resource_version set terms_form = :form" + OF_VERSION,
        versions.stream().map(one -> one.ref().params().addValue("form", form)).toList());
  }

  /** Some versions in force whose terms stand in an older form, in the order of their keys. */
  List<Outdated> outdated(int form, @Nullable VersionRef after, int length) {
    String behind = " and (resource_type, logical_id, version) > (:type, :logical, :version)";
    JdbcClient.StatementSpec asked =
        jdbc.sql(
                "select resource_type, logical_id, version, content from resource_version where"
                    + " terms_form < :form and superseded = :never"
                    + (after == null ? "" : behind)
                    + " order by resource_type, logical_id, version"
                    + " fetch first :length rows only")
            .param("form", form)
            .param("never", ResourceRows.NEVER)
            .param("length", length);
    if (after != null) {
      asked = asked.params(after.params().getValues());
    }
    return asked
        .query(
            (row, number) ->
                new Outdated(
                    new VersionRef(row.getString(1), row.getString(2), row.getInt(3)),
                    row.getString(4)))
        .list();
  }

  /**
   * Holds a version to the end of the transaction and takes its terms away, unless another instance
   * has brought them up to date.
   *
   * @return whether they are to be added anew
   */
  boolean renew(VersionRef ref, int form) {
    boolean outdated =
        of(
                    ref,
                    "update resource_version set terms_form = 0"
                        + OF_VERSION
                        + " and terms_form < :form")
                .param("form", form)
                .update()
            > 0;
    if (outdated) {
      of(ref, "delete from resource_code" + OF_VERSION).update();
      of(ref, "delete from resource_time" + OF_VERSION).update();
    }
    return outdated;
  }

  private static MapSqlParameterSource params(VersionRef ref, ResourceTerms.Code code) {
    return ref.params()
        .addValue("name", code.name())
        .addValue("system", code.system())
        .addValue("code", code.code());
  }

  private static MapSqlParameterSource params(VersionRef ref, ResourceTerms.Time time) {
    return instant(
        instant(ref.params().addValue("name", time.name()), "begins", time.begins()),
        "ends",
        time.ends());
  }

  private static MapSqlParameterSource instant(
      MapSqlParameterSource params, String name, @Nullable Instant instant) {
    return params.addValue(
        name,
        instant == null ? null : instant.atOffset(ZoneOffset.UTC),
        Types.TIMESTAMP_WITH_TIMEZONE);
  }

  private JdbcClient.StatementSpec of(VersionRef ref, String sql) {
    return jdbc.sql(sql).params(ref.params().getValues());
  }

  private void batch(String sql, List<MapSqlParameterSource> rows) {
    if (!rows.isEmpty()) {
      batches.batchUpdate(sql, rows.toArray(SqlParameterSource[]::new));
    }
  }
}
