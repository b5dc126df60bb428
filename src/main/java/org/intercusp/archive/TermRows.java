package org.intercusp.archive;

import java.sql.Types;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.namedparam.MapSqlParameterSource;
import org.springframework.jdbc.core.namedparam.NamedParameterJdbcTemplate;
import org.springframework.jdbc.core.namedparam.SqlParameterSource;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements that bring up to date what versions of resources are searched by. */
final class TermRows {

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

  /** Renews the terms of versions; another instance that does so writes the same. */
  void renew(List<Found> versions, int form) {
    batches.batchUpdate(
        "update resource_version set codes = :codes, begins = :begins, ends = :ends, terms_form ="
            + " :form where resource_type = :type and logical_id = :logical and version = :version",
        versions.stream()
            .map(one -> add(one.ref().params(), one.terms()).addValue("form", form))
            .toArray(SqlParameterSource[]::new));
  }

  /** Adds the parameters {@code codes}, {@code begins} and {@code ends}. */
  static MapSqlParameterSource add(MapSqlParameterSource params, ResourceTerms terms) {
    params.addValue("codes", CodeLines.of(terms.codes()));
    instant(params, "begins", terms.begins());
    return instant(params, "ends", terms.ends());
  }

  private static MapSqlParameterSource instant(
      MapSqlParameterSource params, String name, @Nullable Instant instant) {
    return params.addValue(
        name,
        instant == null ? null : instant.atOffset(ZoneOffset.UTC),
        Types.TIMESTAMP_WITH_TIMEZONE);
  }
}
