package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
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
    Holders<T> holders = new Holders<>();
    List<Row<T>> all = rows.stream().map(Row::new).toList();
    all.forEach(row -> row.factors.keySet().forEach(key -> holders.of(key).add(row)));
    all.stream()
        .sorted(Comparator.comparingInt(row -> row.factors.size()))
        .forEach(
            row ->
                row.factors.keySet().stream()
                    .min(Comparator.comparingInt(key -> holders.of(key).size()))
                    .ifPresent(pivot -> eliminate(row, pivot, holders)));
    Set<T> found = new HashSet<>();
    for (Row<T> row : all) {
      if (row.factors.size() == 1) {
        found.addAll(row.factors.keySet());
      }
    }
    return found;
  }

  private static <T> void eliminate(Row<T> row, T pivot, Holders<T> holders) {
    for (Row<T> other : List.copyOf(holders.of(pivot))) {
      if (other != row) {
        double times = other.factor(pivot) / row.factor(pivot);
        row.factors.forEach(
            (key, factor) -> {
              double left = other.factor(key) - times * factor;
              if (key.equals(pivot) || Math.abs(left) < NOTHING) {
                other.factors.remove(key);
                holders.of(key).remove(other);
              } else {
                other.factors.put(key, left);
                holders.of(key).add(other);
              }
            });
      }
    }
  }

  /** An equation; told apart by identity, since its factors change. */
  private static final class Row<T> {
    private final Map<T, Double> factors;

    Row(Map<T, Double> factors) {
      this.factors = factors;
    }

    double factor(T unknown) {
      return factors.getOrDefault(unknown, 0.0);
    }
  }

  /** The equations in which an unknown stands. */
  private static final class Holders<T> {
    private final Map<T, Set<Row<T>>> rows = new HashMap<>();

    Set<Row<T>> of(T unknown) {
      return rows.computeIfAbsent(unknown, fresh -> new LinkedHashSet<>());
    }
  }
}
