package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * Which counts of the report are hidden. A count of 1 to one below the threshold is hidden, and one
 * that leaves so few of its whole; then, until nothing changes, wherever published counts add up
 * (groups to all cases, classes to their whole) a hidden count gets company that itself is not
 * small, so that no difference gives a small count back; and counts of the same cases under two
 * names (the ended of an old year and those followed to their end) are hidden together. A group of
 * too few cases is hidden whole (common practice of statistical offices, no source).
 */
final class SmallCells {

  private final Cube cube;
  private final int threshold;
  private final CellPlan plan;
  private final Set<Cell> hidden = new HashSet<>();

  SmallCells(Cube cube, int threshold) {
    this.cube = cube;
    this.threshold = threshold;
    this.plan = CellPlan.whole();
    hideSmall();
    List<CellSum> sums = new CellSums(cube, plan).all();
    do {
      settle(sums);
    } while (hideBeside(sums, given(sums)));
  }

  private void settle(List<CellSum> sums) {
    boolean changed = true;
    while (changed) {
      changed = false;
      for (CellSum sum : sums) {
        changed |= protect(sum);
      }
      changed |= hideWithoutWhole();
      changed |= hideWithRecent();
    }
  }

  /** Small counts that several sums together give, though each alone does not. */
  private Set<Cell> given(List<CellSum> sums) {
    Equations<Cell> equations = new Equations<>();
    for (CellSum sum : sums) {
      Map<Cell, Double> factors = new HashMap<>();
      sum.parts().stream().filter(hidden::contains).forEach(part -> factors.put(part, 1.0));
      if (hidden.contains(sum.whole())) {
        factors.put(sum.whole(), -1.0);
      }
      if (sum.adds()) {
        equations.add(factors);
      }
    }
    Set<Cell> given = equations.determined();
    given.removeIf(cell -> !small(count(cell)) && smallRest(cell) == 0);
    return given;
  }

  /** Hides the nearest count that is shown, by way of sums and what is hidden in them. */
  private boolean hideBeside(List<CellSum> sums, Set<Cell> given) {
    // What stands for all cases is what most people read.
    return hideBeside(sums, given, cell -> !cell.slice().equals(Slice.ALL))
        || hideBeside(sums, given, cell -> true);
  }

  private boolean hideBeside(List<CellSum> sums, Set<Cell> given, Predicate<Cell> may) {
    Set<Cell> reached = new HashSet<>(given);
    boolean wider = !given.isEmpty();
    while (wider) {
      Set<Cell> next = new HashSet<>();
      List<Cell> shown = new ArrayList<>();
      for (CellSum sum : sums) {
        List<Cell> all = Stream.concat(Stream.of(sum.whole()), sum.parts().stream()).toList();
        if (all.stream().anyMatch(reached::contains)) {
          all.forEach(cell -> (hidden.contains(cell) ? next : shown).add(cell));
        }
      }
      Optional<Cell> company =
          shown.stream()
              .filter(cell -> may.test(cell) && count(cell) > 0)
              .min(Comparator.comparing(this::comparesClinics).thenComparing(this::count));
      if (company.isPresent()) {
        return hide(company.get());
      }
      wider = reached.addAll(next);
    }
    return false;
  }

  /** Whether a count, and with it what is computed from it, is hidden. */
  boolean hidden(Slice slice, String column) {
    return hidden.contains(new Cell(slice, column));
  }

  private void hideSmall() {
    for (Slice slice : cube.slices()) {
      for (String column : plan.columns()) {
        if (published(slice, column)
            && (small(cube.count(slice, column)) || small(cube.count(slice, "cases")))) {
          hide(new Cell(slice, column));
        }
      }
      for (CellPlan.Part part : plan.parts()) {
        if (published(slice, part) && small(rest(slice, part))) {
          hide(new Cell(slice, part.part()));
        }
      }
    }
  }

  private static boolean published(Slice slice, String column) {
    return CellPlan.published(column, slice.dimension());
  }

  private static boolean published(Slice slice, CellPlan.Part part) {
    return published(slice, part.part()) && published(slice, part.whole());
  }

  private int rest(Slice slice, CellPlan.Part part) {
    return cube.count(slice, part.whole()) - cube.count(slice, part.part());
  }

  /** Hides a count unless nobody has it at all: that is 0 in every group, as the total says. */
  private boolean hide(Cell cell) {
    return somebody(cell.column()) && hidden.add(cell);
  }

  private boolean somebody(String column) {
    return cube.count(Slice.ALL, column) > 0;
  }

  private boolean small(int count) {
    return count > 0 && count < threshold;
  }

  private boolean protect(CellSum sum) {
    List<Cell> gone = sum.parts().stream().filter(hidden::contains).toList();
    boolean wholeGone = hidden.contains(sum.whole());
    if (gone.isEmpty() && !wholeGone) {
      return false;
    }
    boolean alone = gone.size() + (wholeGone ? 1 : 0) < 2;
    boolean weak = sum.adds() && !wholeGone && gone.stream().noneMatch(this::ample) && !open(gone);
    if (!alone && !weak) {
      return false;
    }
    Optional<Cell> company =
        sum.parts().stream()
            .filter(cell -> !hidden.contains(cell) && somebody(cell.column()))
            .min(
                Comparator.comparing((Cell cell) -> !ample(cell))
                    .thenComparing(this::comparesClinics)
                    .thenComparing(cell -> count(cell) == 0)
                    .thenComparing(this::count));
    if (company.isPresent()) {
      return hide(company.get());
    }
    return hide(sum.whole());
  }

  /** Whether with a count one goes by which clinics are compared. */
  private boolean comparesClinics(Cell cell) {
    return plan.over().stream()
        .anyMatch(
            part ->
                part.part().equals(cell.column())
                    || (part.whole().equals(cell.column()) && rest(cell.slice(), part) == 0));
  }

  /**
   * Whether counts that are small, or leave a small rest, alone leave room: their sum and that of
   * their rests are not small, and reached in more ways than one.
   */
  private boolean open(List<Cell> gone) {
    int counts = 0;
    int rests = 0;
    int places = 0;
    for (Cell cell : gone) {
      int rest = smallRest(cell);
      int excess = smallExcess(cell);
      boolean few = rest + excess == 0 || small(count(cell));
      counts += count(cell);
      rests += few ? threshold : rest + excess;
      // How far above the least it could be: what leaves a small rest is so much below its whole,
      // and what exceeds its part by few so much above it.
      places += few ? count(cell) - 1 : rest > 0 ? threshold - 1 - rest : excess - 1;
    }
    return counts >= threshold
        && rests >= threshold
        && places > 0
        && places < (threshold - 2) * gone.size();
  }

  /** The small rest that a count leaves, or 0. */
  private int smallRest(Cell cell) {
    return smallRest(cell.slice(), plan.parts(), part -> part.part().equals(cell.column()));
  }

  /** By how few a count exceeds a part of it that stands, or 0. */
  private int smallExcess(Cell cell) {
    return smallRest(cell.slice(), plan.over(), part -> part.whole().equals(cell.column()));
  }

  private int smallRest(Slice slice, List<CellPlan.Part> of, Predicate<CellPlan.Part> which) {
    return of.stream()
        .filter(part -> which.test(part) && published(slice, part))
        .mapToInt(part -> rest(slice, part))
        .filter(this::small)
        .findFirst()
        .orElse(0);
  }

  /** A whole that is hidden would stand in the share of its part. */
  private boolean hideWithoutWhole() {
    boolean changed = false;
    for (Slice slice : cube.slices()) {
      for (CellPlan.Part part : plan.parts()) {
        if (published(slice, part) && hidden(slice, part.whole())) {
          changed |= hide(new Cell(slice, part.part()));
        }
      }
    }
    return changed;
  }

  /** Two tables that each show all but a pair would show the difference of the pairs. */
  private boolean hideWithRecent() {
    boolean changed = false;
    for (Slice slice : cube.slices()) {
      for (CellPlan.Part part : plan.over()) {
        if (rest(slice, part) > 0 && hidden(slice, part.recent())) {
          changed |= hide(new Cell(slice, part.whole()));
        }
      }
    }
    return changed;
  }

  /** Neither small itself nor leaving a small rest, so it can stand beside one that is. */
  private boolean ample(Cell cell) {
    return count(cell) >= threshold && smallRest(cell) == 0 && smallExcess(cell) == 0;
  }

  private int count(Cell cell) {
    return cube.count(cell.slice(), cell.column());
  }
}
