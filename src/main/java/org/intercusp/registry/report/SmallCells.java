package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * Which counts of the report are hidden. A count of 1 to one below the threshold is hidden, and one
 * that leaves so few of its whole; then, until nothing changes, wherever published counts add up
 * (groups to all cases, classes to their whole) a hidden count gets company that itself is not
 * small, so that no difference gives a small count back. A group of too few cases is hidden whole
 * (common practice of statistical offices, no source).
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
        if (small(cube.count(slice, column)) || small(cube.count(slice, "cases"))) {
          hide(new Cell(slice, column));
        }
      }
      for (CellPlan.Part part : plan.parts()) {
        if (small(cube.count(slice, part.whole()) - cube.count(slice, part.part()))) {
          hide(new Cell(slice, part.part()));
        }
      }
    }
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
      if (column.startsWith(Cube.COMPLETED)) {
        continue;
      }
      for (Dimension dimension : Dimension.SPLITS) {
        sums.add(
            new Sum(
                new Cell(Slice.ALL, column),
                cube.slices(dimension).stream().map(slice -> new Cell(slice, column)).toList()));
      }
    }
    for (Slice slice : cube.slices()) {
      for (CellPlan.Split split : plan.splits()) {
        sums.add(
            new Sum(
                new Cell(slice, split.whole()),
                split.parts().stream().map(part -> new Cell(slice, part)).toList()));
      }
    }
    return sums;
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

  /** Whether small counts alone leave room: their sum is reached in more ways than one each. */
  private boolean open(List<Cell> gone) {
    int sum = gone.stream().mapToInt(this::count).sum();
    return sum >= threshold && sum > gone.size() && sum < (threshold - 1) * gone.size();
  }

  /** A whole that is hidden would stand in the share of its part. */
  private boolean hideWithoutWhole() {
    boolean changed = false;
    for (Slice slice : cube.slices()) {
      for (CellPlan.Part part : plan.parts()) {
        if (hidden(slice, part.whole())) {
          changed |= hide(new Cell(slice, part.part()));
        }
      }
    }
    return changed;
  }

  /** Neither small itself nor leaving a small rest, so it can stand beside one that is. */
  private boolean ample(Cell cell) {
    return count(cell) >= threshold
        && plan.parts().stream()
            .filter(part -> part.part().equals(cell.column))
            .noneMatch(part -> small(cube.count(cell.slice, part.whole()) - count(cell)));
  }

  private int count(Cell cell) {
    return cube.count(cell.slice, cell.column);
  }

  private record Cell(Slice slice, String column) {}

  private record Sum(Cell whole, List<Cell> parts) {}
}
