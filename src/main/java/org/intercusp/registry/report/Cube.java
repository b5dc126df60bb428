package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.SortedSet;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.intercusp.registry.report.RowSource.Row;

/**
 * Counts and sums by group, added up from the cells an engine brings. The columns are those the SQL
 * names; packed ones are taken apart. Those of the completed alone carry {@link #COMPLETED} before
 * their name and exist for all cases together only.
 */
public final class Cube {

  static final String COMPLETED = "completed:";

  private static final Pattern NAMED = Pattern.compile(" AS ([a-z_0-9]+),?$", Pattern.MULTILINE);
  private static final String LANES = "lanes__";
  private static final int LANE = 31;
  private static final List<String> CELLS = named("cells");

  private final SortedMap<Slice, Map<String, Double>> sums = new TreeMap<>();

  /** Names of the columns a query gives. */
  static List<String> named(String query) {
    List<String> names = new ArrayList<>();
    Matcher matcher = NAMED.matcher(Gathering.text(query));
    while (matcher.find()) {
      names.add(matcher.group(1));
    }
    return List.copyOf(names);
  }

  /**
   * Adds a cell.
   *
   * @param slices the groups it belongs to
   * @param completed whether its cases are completed ones
   */
  void addCell(Row row, List<Slice> slices, boolean completed) {
    Map<String, Double> cell = new LinkedHashMap<>();
    for (String name : CELLS) {
      if (name.startsWith(LANES)) {
        unpack(name, row.whole(name), cell);
      } else {
        cell.put(name, row.number(name));
      }
    }
    for (Slice slice : slices) {
      cell.forEach((name, value) -> add(slice, name, value));
    }
    if (completed) {
      cell.forEach((name, value) -> add(Slice.ALL, COMPLETED + name, value));
    }
  }

  private static void unpack(String name, long packed, Map<String, Double> into) {
    long rest = packed;
    for (String part : name.substring(LANES.length()).split("__", -1)) {
      into.put(part, (double) (rest & ((1L << LANE) - 1)));
      rest >>= LANE;
    }
  }

  /** Adds to a count or sum of a group. */
  void add(Slice slice, String column, double value) {
    sums.computeIfAbsent(slice, fresh -> new LinkedHashMap<>()).merge(column, value, Double::sum);
  }

  /** A count of a group. */
  int count(Slice slice, String column) {
    return Math.toIntExact(Math.round(sum(slice, column)));
  }

  /** A sum of a group. */
  double sum(Slice slice, String column) {
    return sums.getOrDefault(slice, Map.of()).getOrDefault(column, 0.0);
  }

  /** All groups, all cases first, in the order they are shown. */
  SortedSet<Slice> slices() {
    SortedSet<Slice> slices = new TreeSet<>(sums.keySet());
    slices.add(Slice.ALL);
    return slices;
  }

  /** The groups of one dimension. */
  SortedSet<Slice> slices(Dimension dimension) {
    SortedSet<Slice> slices = slices();
    slices.removeIf(slice -> slice.dimension() != dimension);
    return slices;
  }
}
