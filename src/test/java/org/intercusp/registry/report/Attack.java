package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.BiPredicate;
import java.util.stream.IntStream;

/**
 * What somebody can work back from the counts a report shows. Unknowns are the hidden counts and
 * the rests that nobody publishes, none below 0. Equations: groups to all, classes to their whole,
 * a part and its rest, and what follows from the definitions: whoever was fitted long enough ago
 * has ended or not in both tables, who has no first fitting has no age, a kind of harm is a harm.
 */
final class Attack {

  private final Cube cube;
  private final BiPredicate<Slice, String> hidden;
  private final Map<String, Integer> unknowns = new LinkedHashMap<>();
  private final List<Integer> truth = new ArrayList<>();
  private final List<TreeMap<Integer, Double>> equations = new ArrayList<>();

  Attack(Cube cube, BiPredicate<Slice, String> hidden) {
    this.cube = cube;
    this.hidden = hidden;
    CellPlan plan = CellPlan.whole();
    for (String column : plan.columns()) {
      for (Dimension dimension : Dimension.SPLITS) {
        if (CellPlan.published(column, dimension)) {
          equation(
              cell(Slice.ALL, column),
              cube.slices(dimension).stream().map(slice -> cell(slice, column)).toList());
        }
      }
    }
    for (Slice slice : cube.slices()) {
      plan.splits().stream()
          .filter(split -> split.published(slice.dimension()))
          .forEach(
              split ->
                  equation(
                      cell(slice, split.whole()),
                      split.parts().stream().map(part -> cell(slice, part)).toList()));
      plan.inclusions().stream()
          .filter(part -> shown(slice, part.whole()) && shown(slice, part.part()))
          .forEach(part -> inclusion(slice, part));
      plan.over()
          .forEach(
              part ->
                  equation(
                      cell(slice, part.whole()),
                      List.of(cell(slice, part.part()), cell(slice, part.recent()))));
      anyHarm(slice);
    }
    unrecorded();
  }

  /** A count, or what is left of one. */
  private record Cell(String name, int count, boolean secret) {}

  private static boolean shown(Slice slice, String column) {
    return CellPlan.published(column, slice.dimension());
  }

  private Cell cell(Slice slice, String column) {
    return new Cell(slice + "|" + column, cube.count(slice, column), hidden.test(slice, column));
  }

  private void inclusion(Slice slice, CellPlan.Part part) {
    int rest = cube.count(slice, part.whole()) - cube.count(slice, part.part());
    // Whoever knows the clinics knows where nothing is missing and nobody is too recent.
    Cell left =
        new Cell("rest of " + slice + "|" + part.whole() + " less " + part.part(), rest, rest > 0);
    equation(cell(slice, part.whole()), List.of(cell(slice, part.part()), left));
  }

  /** Any harm is at most all kinds together. */
  private void anyHarm(Slice slice) {
    List<Cell> kinds = Harms.KINDS.stream().map(kind -> cell(slice, kind)).toList();
    int twice = kinds.stream().mapToInt(Cell::count).sum() - cube.count(slice, Harms.ANY);
    Cell several = new Cell("several harms in " + slice, twice, true);
    TreeMap<Integer, Double> equation = new TreeMap<>();
    kinds.forEach(kind -> term(equation, kind, 1));
    term(equation, several, -1);
    term(equation, cell(slice, Harms.ANY), -1);
    equations.add(equation);
  }

  private void unrecorded() {
    Map.of(
            Dimension.GROWTH, "has_growth_stage",
            Dimension.AGE, "has_age_months",
            Dimension.YEAR, "has_first_fitted_month")
        .forEach(
            (dimension, field) ->
                equation(
                    cell(Slice.ALL, "cases"),
                    List.of(
                        cell(Slice.ALL, field),
                        cell(new Slice(dimension, Members.NOT_RECORDED), "cases"))));
    for (String column : CellPlan.whole().columns()) {
      Slice ageless = new Slice(Dimension.AGE, Members.NOT_RECORDED);
      Slice yearless = new Slice(Dimension.YEAR, Members.NOT_RECORDED);
      if (shown(ageless, column)) {
        equation(cell(ageless, column), List.of(cell(yearless, column)));
      }
    }
  }

  private void equation(Cell whole, List<Cell> parts) {
    int sum = parts.stream().mapToInt(Cell::count).sum();
    if (sum != whole.count()) {
      throw new AssertionError("no equation: " + whole + " of " + parts);
    }
    TreeMap<Integer, Double> equation = new TreeMap<>();
    parts.forEach(part -> term(equation, part, 1));
    term(equation, whole, -1);
    if (!equation.isEmpty()) {
      equations.add(equation);
    }
  }

  private void term(TreeMap<Integer, Double> equation, Cell cell, double factor) {
    if (cell.secret()) {
      int at =
          unknowns.computeIfAbsent(
              cell.name(),
              fresh -> {
                truth.add(cell.count());
                return unknowns.size();
              });
      equation.merge(at, factor, Double::sum);
    }
  }

  /** The hidden counts of 1 to one below a threshold that can have no other value. */
  List<String> workedBack(int threshold) {
    List<String> names = new ArrayList<>(unknowns.keySet());
    boolean[] small = small(names, threshold);
    boolean[] free = new Polyhedron(truth, equations).free(small);
    return IntStream.range(0, free.length)
        .filter(at -> small[at] && !free[at])
        .mapToObj(names::get)
        .toList();
  }

  private boolean[] small(List<String> names, int threshold) {
    boolean[] small = new boolean[names.size()];
    for (int at = 0; at < small.length; at++) {
      int count = truth.get(at);
      small[at] =
          count > 0
              && count < threshold
              && !names.get(at).startsWith("rest of")
              && !names.get(at).startsWith("several");
    }
    return small;
  }

  int unknowns() {
    return unknowns.size();
  }
}
