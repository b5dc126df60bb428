package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Tries to work hidden counts back from what the report publishes: all sums of groups and classes
 * as linear equations, solved by elimination; whatever comes out alone is a leak.
 */
class SmallCellsTest {

  @TempDir Path cases;

  @ParameterizedTest
  @ValueSource(ints = {60, 250, 900, 4000})
  void nothingHiddenCanBeWorkedBack(int number) throws Exception {
    OutcomeRows.write(cases, number, 30);
    try (DuckRows rows = DuckRows.over(cases, 256)) {
      Gathered gathered =
          new Gathering(rows, ReportQuestion.at(LocalDate.of(2026, 6, 30))).gather();
      new Counts(gathered);
      Cube cube = gathered.cube();
      SmallCells cells = new SmallCells(cube, 5);
      Attack attack = new Attack(cube, cells);
      assertThat(attack.hiddenCells()).isPositive();
      assertThat(attack.solved()).isEmpty();
      // Without company for the small ones the same attack finds some: it can fail.
      assertThat(new Attack(cube, null).solved()).isNotEmpty();
    }
  }

  @ParameterizedTest
  @ValueSource(ints = {250, 4000})
  void noSmallCountIsPublished(int number) throws Exception {
    OutcomeRows.write(cases, number, 30);
    Report report = Reports.over(cases).of(ReportQuestion.at(LocalDate.of(2026, 6, 30)));
    List<Measure> ofRecords = List.of(Measure.COUNTING, Measure.COMPLETENESS);
    assertThat(report.figures())
        .filteredOn(
            figure ->
                figure.value() != null
                    && figure.statistic().unit().equals("{case}")
                    && !ofRecords.contains(figure.measure()))
        .filteredOn(figure -> !figure.statistic().code().equals("expected"))
        .noneMatch(figure -> figure.value() > 0 && figure.value() < 5);
    // A share of a count gives the count: where the count is hidden so is the share and its
    // interval.
    Map<String, Figure> byKey = new HashMap<>();
    report
        .figures()
        .forEach(
            figure ->
                byKey.put(
                    figure.measure() + "|" + figure.slice() + "|" + figure.statistic().code(),
                    figure));
    byKey.forEach(
        (key, figure) -> {
          if (figure.hidden()) {
            for (String suffix : List.of("-share", "-share-low", "-share-high")) {
              Figure share = byKey.get(key + suffix);
              assertThat(share == null || share.hidden()).as(key + suffix).isTrue();
            }
          }
        });
  }

  /** Unknowns are the hidden counts; every published sum is an equation. */
  private static final class Attack {

    private final Cube cube;
    private final SmallCells cells;
    private final Map<String, Integer> unknowns = new LinkedHashMap<>();
    private final List<TreeMap<Integer, Double>> equations = new ArrayList<>();

    Attack(Cube cube, SmallCells cells) {
      this.cube = cube;
      this.cells = cells;
      CellPlan plan = CellPlan.whole();
      for (String column : plan.columns()) {
        if (!column.startsWith(Cube.COMPLETED)) {
          for (Dimension dimension : Dimension.SPLITS) {
            List<String[]> parts =
                cube.slices(dimension).stream().map(slice -> cell(slice, column)).toList();
            equation(cell(Slice.ALL, column), parts);
          }
        }
      }
      for (Slice slice : cube.slices()) {
        plan.splits()
            .forEach(
                split ->
                    equation(
                        cell(slice, split.whole()),
                        split.parts().stream().map(part -> cell(slice, part)).toList()));
      }
    }

    private String[] cell(Slice slice, String column) {
      boolean hidden;
      if (cells == null) {
        int count = cube.count(slice, column);
        hidden = count > 0 && count < 5;
      } else {
        hidden = cells.hidden(slice, column);
      }
      return new String[] {slice + "|" + column, hidden ? "hidden" : ""};
    }

    private void equation(String[] whole, List<String[]> parts) {
      TreeMap<Integer, Double> equation = new TreeMap<>();
      parts.forEach(part -> term(equation, part, 1));
      term(equation, whole, -1);
      if (!equation.isEmpty()) {
        equations.add(equation);
      }
    }

    private void term(TreeMap<Integer, Double> equation, String[] cell, double factor) {
      if (!cell[1].isEmpty()) {
        equation.merge(
            unknowns.computeIfAbsent(cell[0], fresh -> unknowns.size()), factor, Double::sum);
      }
    }

    int hiddenCells() {
      return unknowns.size();
    }

    /** Names of the hidden counts that elimination gives alone. */
    List<String> solved() {
      Map<Integer, TreeMap<Integer, Double>> pivots = new TreeMap<>();
      for (TreeMap<Integer, Double> fresh : equations) {
        TreeMap<Integer, Double> row = new TreeMap<>(fresh);
        pivots.forEach(
            (pivot, other) -> {
              if (row.containsKey(pivot)) {
                subtract(row, other, row.get(pivot));
              }
            });
        if (!row.isEmpty()) {
          int pivot = row.firstKey();
          double lead = row.get(pivot);
          row.replaceAll((key, value) -> value / lead);
          pivots
              .values()
              .forEach(
                  other -> {
                    if (other.containsKey(pivot)) {
                      subtract(other, row, other.get(pivot));
                    }
                  });
          pivots.put(pivot, row);
        }
      }
      List<String> names = new ArrayList<>(unknowns.keySet());
      return pivots.values().stream()
          .filter(row -> row.size() == 1)
          .map(row -> names.get(row.firstKey()))
          .toList();
    }

    private static void subtract(
        TreeMap<Integer, Double> row, TreeMap<Integer, Double> other, double factor) {
      other.forEach(
          (key, value) -> {
            double left = row.getOrDefault(key, 0.0) - factor * value;
            if (Math.abs(left) < 1e-9) {
              row.remove(key);
            } else {
              row.put(key, left);
            }
          });
    }
  }
}
