package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
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
  private static final String HALVES = "halves__";
  private static final int LANE = 20;
  private static final int HALF = 30;
  private static final List<String> CELLS = named("cells");
  private static final List<String> HARMS = named("harms");

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

  void addCell(Row row) {
    Map<String, Double> cell = new LinkedHashMap<>();
    for (String name : CELLS) {
      if (name.startsWith(LANES)) {
        unpack(name, LANES, LANE, row.whole(name), cell);
      } else if (name.startsWith(HALVES)) {
        unpack(name, HALVES, HALF, row.whole(name), cell);
      } else {
        cell.put(name, row.number(name));
      }
    }
    add(row, cell);
    if (row.whole("completed") == 1) {
      cell.forEach((name, value) -> add(Slice.ALL, COMPLETED + name, value));
    }
  }

  private static void unpack(
      String name, String prefix, int bits, long packed, Map<String, Double> into) {
    String[] parts = name.substring(prefix.length()).split("__", -1);
    long rest = packed;
    for (String part : parts) {
      into.put(part, (double) (rest & ((1L << bits) - 1)));
      rest >>= bits;
    }
  }

  void addHarm(Row row) {
    Map<String, Double> cell = new LinkedHashMap<>();
    HARMS.forEach(name -> cell.put(name, row.number(name)));
    add(row, cell);
  }

  private void add(Row row, Map<String, Double> cell) {
    cell.forEach((name, value) -> add(Slice.ALL, name, value));
    for (Dimension dimension : Dimension.SPLITS) {
      String member = Objects.requireNonNull(row.text(dimension.column()), dimension.column());
      Slice slice = Slice.of(dimension.column(), member);
      cell.forEach((name, value) -> add(slice, name, value));
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
