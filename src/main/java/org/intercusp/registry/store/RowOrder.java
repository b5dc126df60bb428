package org.intercusp.registry.store;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The order of a batch's rows in their file: those that lack the same fields lie together, since an
 * engine that reads a column works through a stretch of values, or of none, several times as fast
 * as through a mixture. Nothing depends on the order; the sequence tells which row came later.
 */
final class RowOrder {

  /** Fields whose lack goes with the most others', the strongest first. */
  private static final List<Integer> LACKING =
      places("end_par_ua", "end_icon_ae", "start_icon_ae", "start_par_ua", "end_dhc", "start_dhc");

  private static final int STATUS = place("status");
  private static final List<Integer> LACKING_WITHIN = places("wear_reported", "growth_stage");

  private static final Comparator<List<@Nullable Object>> ORDER =
      Comparator.<List<@Nullable Object>>comparingInt(row -> lacking(row, LACKING))
          .thenComparing(row -> String.valueOf(row.get(STATUS)))
          .thenComparingInt(row -> lacking(row, LACKING_WITHIN));

  private RowOrder() {}

  /** The same rows, those alike together. */
  static List<List<@Nullable Object>> of(List<List<@Nullable Object>> rows) {
    List<List<@Nullable Object>> ordered = new ArrayList<>(rows);
    ordered.sort(ORDER);
    return ordered;
  }

  private static int lacking(List<@Nullable Object> row, List<Integer> places) {
    int bits = 0;
    for (int place : places) {
      bits = bits << 1 | (row.get(place) == null ? 1 : 0);
    }
    return bits;
  }

  private static List<Integer> places(String... names) {
    List<Integer> places = new ArrayList<>();
    for (String name : names) {
      places.add(place(name));
    }
    return List.copyOf(places);
  }

  private static int place(String name) {
    for (int i = 0; i < CaseColumns.ALL.size(); i++) {
      if (CaseColumns.ALL.get(i).name().equals(name)) {
        return i;
      }
    }
    throw new IllegalArgumentException(name);
  }
}
