package org.intercusp.registry.report;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/** The members of the groups by the numbers that stand for them while an engine counts. */
final class Members {

  /** Groups whose members are texts: the column of the rows, and the table of the numbers. */
  private static final List<Named> NAMED =
      List.of(
          new Named(Dimension.APPLIANCE, "appliance", "appliances"),
          new Named(Dimension.GROWTH, "growth_stage", "growths"),
          new Named(Dimension.CLINIC, "clinic", "clinics"));

  static final String NOT_RECORDED = "not recorded";

  private final Map<Dimension, Map<Integer, String>> names = new EnumMap<>(Dimension.class);

  private record Named(Dimension dimension, String column, String table) {}

  private Members() {}

  static Members none() {
    return new Members();
  }

  /** Numbers the members, and keeps the numbers for the queries to come. */
  static Members numbered(RowSource source) {
    Members members = new Members();
    for (Named each : NAMED) {
      source.keep(each.table, Gathering.text("members").replace("{column}", each.column));
      Map<Integer, String> names = new TreeMap<>(Map.of(0, NOT_RECORDED));
      source.each(
          "SELECT member, number FROM " + each.table,
          row -> names.put((int) row.whole("number"), Objects.requireNonNull(row.text("member"))));
      members.names.put(each.dimension, names);
    }
    return members;
  }

  Slice slice(Dimension dimension, long number) {
    Map<Integer, String> known = names.get(dimension);
    String member =
        known == null
            ? Long.toString(number)
            : Objects.requireNonNull(known.get(Math.toIntExact(number)), dimension.code());
    return Slice.of(dimension.column(), member);
  }
}
