package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

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
    List<Sum> sums = sums();
    boolean changed = true;
    while (changed) {
      changed = false;
      for (Sum sum : sums) {
        changed |= protect(sum);
      }
      changed |= hideWithoutWhole();
    }
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
    return somebody(cell.column) && hidden.add(cell);
  }

  private boolean somebody(String column) {
    return cube.count(Slice.ALL, column) > 0;
  }

  private boolean small(int count) {
    return count > 0 && count < threshold;
  }

  /** Everything published that adds up. */
  private List<Sum> sums() {
    List<Sum> sums = new ArrayList<>();
    for (String column : plan.columns()) {
      for (Dimension dimension : Dimension.SPLITS) {
        if (CellPlan.published(column, dimension)) {
          sums.add(
              new Sum(
                  new Cell(Slice.ALL, column),
                  cube.slices(dimension).stream().map(slice -> new Cell(slice, column)).toList()));
        }
      }
    }
    for (Slice slice : cube.slices()) {
      for (CellPlan.Split split : plan.splits()) {
        if (split.published(slice.dimension())) {
          sums.add(
              new Sum(
                  new Cell(slice, split.whole()),
                  split.parts().stream().map(part -> new Cell(slice, part)).toList()));
        }
      }
      for (CellPlan.Part part : plan.inclusions()) {
        // Without a rest one is the other, and who knows that (an old year, nothing missing) has
        // both.
        if (published(slice, part) && rest(slice, part) == 0) {
          sums.add(new Sum(new Cell(slice, part.whole()), List.of(new Cell(slice, part.part()))));
        }
      }
    }
    unrecorded(sums);
    return sums;
  }

  /** Who is in no group of a dimension is told by the field that is missing as well. */
  private void unrecorded(List<Sum> sums) {
    Map.of(
            Dimension.GROWTH, "has_growth_stage",
            Dimension.AGE, "has_age_months",
            Dimension.YEAR, "has_first_fitted_month")
        .forEach(
            (dimension, field) -> {
              Cell without = new Cell(new Slice(dimension, Members.NOT_RECORDED), "cases");
              Cell with = new Cell(Slice.ALL, field);
              Cell all = new Cell(Slice.ALL, "cases");
              if (count(with) + count(without) == count(all)) {
                sums.add(new Sum(all, List.of(with, without)));
              }
            });
    Slice ageless = new Slice(Dimension.AGE, Members.NOT_RECORDED);
    Slice yearless = new Slice(Dimension.YEAR, Members.NOT_RECORDED);
    // The age is that at the first fitting, so the same cases lack both.
    if (cube.count(ageless, "cases") == cube.count(yearless, "cases")) {
      for (String column : plan.columns()) {
        if (published(ageless, column) && !column.startsWith(CellPlan.MODEL)) {
          sums.add(new Sum(new Cell(ageless, column), List.of(new Cell(yearless, column))));
        }
      }
    }
  }

  private boolean protect(Sum sum) {
    List<Cell> gone = sum.parts.stream().filter(hidden::contains).toList();
    boolean wholeGone = hidden.contains(sum.whole);
    if (gone.isEmpty() && !wholeGone) {
      return false;
    }
    boolean alone = gone.size() + (wholeGone ? 1 : 0) < 2;
    boolean weak = !wholeGone && gone.stream().noneMatch(this::ample) && !open(gone);
    if (!alone && !weak) {
      return false;
    }
    Optional<Cell> company =
        sum.parts.stream()
            .filter(cell -> !hidden.contains(cell) && somebody(cell.column))
            .min(
                Comparator.comparing((Cell cell) -> !ample(cell))
                    .thenComparing(cell -> count(cell) == 0)
                    .thenComparing(this::count));
    if (company.isPresent()) {
      return hide(company.get());
    }
    return hide(sum.whole);
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
      boolean few = rest == 0 || small(count(cell));
      counts += count(cell);
      rests += few ? threshold : rest;
      // How far above the least it could be: what leaves a small rest is so much below its whole.
      places += few ? count(cell) - 1 : threshold - 1 - rest;
    }
    return counts >= threshold
        && rests >= threshold
        && places > 0
        && places < (threshold - 2) * gone.size();
  }

  /** The small rest that a count leaves, or 0. */
  private int smallRest(Cell cell) {
    return plan.parts().stream()
        .filter(part -> part.part().equals(cell.column) && published(cell.slice, part))
        .mapToInt(part -> rest(cell.slice, part))
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

  /** Neither small itself nor leaving a small rest, so it can stand beside one that is. */
  private boolean ample(Cell cell) {
    return count(cell) >= threshold && smallRest(cell) == 0;
  }

  private int count(Cell cell) {
    return cube.count(cell.slice, cell.column);
  }

  private record Cell(Slice slice, String column) {}

  private record Sum(Cell whole, List<Cell> parts) {}
}
