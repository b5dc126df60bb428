package org.intercusp.exchange.custody;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import javax.sql.DataSource;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * The tables that hold what is a clinic's own, in an order in which rows can be brought in again.
 * Tables of later programs that name a treatment are found by themselves; the indexes are left out,
 * since they can be made anew.
 */
final class ClinicTables {

  /** In the order of their foreign keys. */
  private static final List<String> FIRST =
      List.of(
          "treatment",
          "treatment_version",
          "delivery",
          "delivery_attempt",
          "delivered_resource",
          "audit_event");

  /** Made anew from the rest. */
  private static final Set<String> INDEXES =
      Set.of("worklist", "resource_filing", "resource_source", "resource_version");

  /** Belongs to a delivery and has no clinic of its own. */
  static final String ATTEMPTS = "delivery_attempt";

  private final Map<String, Map<String, String>> columns = new LinkedHashMap<>();

  ClinicTables(DataSource database) {
    Map<String, Map<String, String>> all = new LinkedHashMap<>();
    JdbcClient.create(database)
        .sql(
            "select table_name, column_name, data_type from information_schema.columns where"
                + " lower(table_schema) = 'public' order by table_name, ordinal_position")
        .query(
            row -> {
              all.computeIfAbsent(lower(row.getString(1)), name -> new LinkedHashMap<>())
                  .put(lower(row.getString(2)), lower(row.getString(3)));
            });
    List<String> names = new ArrayList<>(FIRST);
    all.forEach(
        (table, its) -> {
          if (its.containsKey("treatment_id")
              && !FIRST.contains(table)
              && !INDEXES.contains(table)) {
            names.add(table);
          }
        });
    names.forEach(name -> columns.put(name, all.getOrDefault(name, Map.of())));
  }

  /** Their names, in that order. */
  List<String> names() {
    return List.copyOf(columns.keySet());
  }

  /** The type of each column of a table, in lower case, as the database calls it. */
  Map<String, String> columns(String table) {
    return columns.getOrDefault(table, Map.of());
  }

  /** The statement that finds the rows of a clinic; its two parameters are system and value. */
  static String rows(String table) {
    String of = " t.clinic_system = ? and t.clinic_value = ?";
    return table.equals(ATTEMPTS)
        ? "select a.* from delivery_attempt a join delivery t on t.id = a.delivery_id where"
            + of
            + " order by a.delivery_id, a.number"
        : "select t.* from " + table + " t where" + of + order(table);
  }

  private static String order(String table) {
    return switch (table) {
      case "treatment" -> " order by t.treatment_id";
      case "treatment_version" -> " order by t.treatment_id, t.version";
      case "delivery" -> " order by t.queued_at, t.id";
      case "audit_event" -> " order by t.recorded_at, t.id";
      default -> " order by t.treatment_id";
    };
  }

  private static String lower(String name) {
    return name.toLowerCase(Locale.ROOT);
  }
}
