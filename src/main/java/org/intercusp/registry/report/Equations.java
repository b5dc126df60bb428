package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Linear equations over unknowns, and which of these can be one number only. Solved by Gauss and
 * Jordan with the short equations first, so that those of one group stay among themselves.
 */
final class Equations<T> {

  private static final double NOTHING = 1e-9;

  private final List<Map<T, Double>> rows = new ArrayList<>();

  /** Adds an equation: the factor of each unknown; what is known does not matter here. */
  void add(Map<T, Double> factors) {
    if (!factors.isEmpty()) {
      rows.add(new HashMap<>(factors));
    }
  }

  /** The unknowns that the equations leave one number. Solves in place: ask once. */
  Set<T> determined() {
    List<Row<T>> all = new ArrayList<>();
    Map<T, Set<Row<T>>> holders = new HashMap<>();
    for (Map<T, Double> factors : rows) {
      Row<T> row = new Row<>(factors);
      all.add(row);
      factors.keySet().forEach(key -> holders.computeIfAbsent(key, k -> new HashSet<>()).add(row));
    }
    all.sort(Comparator.comparingInt(row -> row.factors.size()));
    for (Row<T> row : all) {
      row.factors.keySet().stream()
          .min(Comparator.comparingInt(key -> holders.get(key).size()))
          .ifPresent(pivot -> eliminate(row, pivot, holders));
    }
    Set<T> found = new HashSet<>();
    for (Row<T> row : all) {
      if (row.factors.size() == 1) {
        found.addAll(row.factors.keySet());
      }
    }
    return found;
  }

  private static <T> void eliminate(Row<T> row, T pivot, Map<T, Set<Row<T>>> holders) {
    double at = row.factors.get(pivot);
    for (Row<T> other : List.copyOf(holders.get(pivot))) {
      if (other == row) {
        continue;
      }
      double times = other.factors.get(pivot) / at;
      row.factors.forEach(
          (key, factor) -> {
            double left = other.factors.getOrDefault(key, 0.0) - times * factor;
            if (key.equals(pivot) || Math.abs(left) < NOTHING) {
              other.factors.remove(key);
              holders.get(key).remove(other);
            } else {
              other.factors.put(key, left);
              holders.get(key).add(other);
            }
          });
    }
  }

  private static final class Row<T> {
    private final Map<T, Double> factors;

    Row(Map<T, Double> factors) {
      this.factors = factors;
    }
  }
}
