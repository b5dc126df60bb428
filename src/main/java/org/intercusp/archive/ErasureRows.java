package org.intercusp.archive;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import javax.sql.DataSource;
import org.intercusp.archive.ResourceRows.Ref;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * The statements that erase a treatment. What other treatments of the clinic say too, such as the
 * clinic itself or a patient with a second treatment, stays as they say it.
 */
final class ErasureRows {

  private static final String OF_KEY = " " + KeyColumns.ARE_GIVEN;

  private static final String OF_RESOURCE = " resource_type = :type and logical_id = :logical";

  /**
   * Tables that name a treatment and are not emptied of it as a whole: the trail of deeds stays,
   * and the others have an order of their own.
   */
  private static final Set<String> OTHERWISE =
      Set.of(
          "audit_event",
          "delivery",
          "treatment",
          "treatment_version",
          "resource_filing",
          "resource_source",
          "resource_version");

  private final JdbcClient jdbc;

  ErasureRows(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  /** Holds the treatment's row to the end of the transaction; how many versions it has. */
  int hold(TreatmentKey key) {
    return of(key, "select newest from treatment where" + OF_KEY + " for update")
        .query(Integer.class)
        .optional()
        .orElse(0);
  }

  void erase(TreatmentKey key, Instant now) {
    attached().forEach(table -> of(key, "delete from " + table + " where" + OF_KEY).update());
    resources(key);
    of(
            key,
            "delete from resource_filing f where "
                + KeyColumns.areGiven("f")
                + " and not exists (select 1 from"
                + " resource_version v where v.sequence = f.sequence)")
        .update();
    // A version whose place in the sequence something of another treatment still needs.
    of(key, "update treatment_version set content = '', digest = :none where" + OF_KEY)
        .param("none", "0".repeat(64))
        .update();
    of(
            key,
            "delete from treatment_version t where "
                + KeyColumns.areGiven("t")
                + " and not exists (select 1 from resource_filing"
                + " f where f.clinic_system = t.clinic_system and f.clinic_value = t.clinic_value"
                + " and f.treatment_id = t.treatment_id and f.version = t.version)")
        .update();
    of(key, "update treatment set newest = 0, erased_at = :now where" + OF_KEY)
        .param("now", now.atOffset(ZoneOffset.UTC))
        .update();
  }

  /** Every other table that names treatments, those of later programs too. */
  private List<String> attached() {
    return jdbc
        .sql(
            "select c.table_name from information_schema.columns c where lower(c.column_name) ="
                + " 'treatment_id' and lower(c.table_schema) = 'public'")
        .query(String.class)
        .list()
        .stream()
        .map(name -> name.toLowerCase(Locale.ROOT))
        .filter(name -> !OTHERWISE.contains(name))
        .sorted()
        .toList();
  }

  private void resources(TreatmentKey key) {
    of(key, "delete from resource_source where" + OF_KEY).update();
    List<Ref> said =
        of(key, "select distinct resource_type, logical_id from resource_version where" + OF_KEY)
            .query((row, number) -> new Ref(row.getString(1), row.getString(2)))
            .list();
    for (Ref ref : said) {
      if (isSaidByOthers(ref, key)) {
        of(
                ref,
                "delete from resource_version where"
                    + OF_RESOURCE
                    + " and treatment_id = :treatment and version < (select r.newest from resource r where"
                    + " r.resource_type = :type and r.logical_id = :logical)")
            .param("treatment", key.treatment())
            .update();
      } else {
        of(ref, "delete from resource_version where" + OF_RESOURCE).update();
        of(ref, "delete from resource where" + OF_RESOURCE).update();
      }
    }
  }

  private boolean isSaidByOthers(Ref ref, TreatmentKey key) {
    return of(ref, "select count(*) from resource_source where" + OF_RESOURCE)
                .query(Long.class)
                .single()
            + of(
                    ref,
                    "select count(*) from resource_version where"
                        + OF_RESOURCE
                        + " and treatment_id <> :treatment")
                .param("treatment", key.treatment())
                .query(Long.class)
                .single()
        > 0;
  }

  private JdbcClient.StatementSpec of(TreatmentKey key, String sql) {
    return KeyColumns.bind(jdbc.sql(sql), key);
  }

  private JdbcClient.StatementSpec of(Ref ref, String sql) {
    return jdbc.sql(sql).param("type", ref.type()).param("logical", ref.id());
  }
}
