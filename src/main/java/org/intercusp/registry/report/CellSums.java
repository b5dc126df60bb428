package org.intercusp.registry.report;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/** Everything that adds up among what a report publishes and what follows from it. */
record CellSums(Cube cube, CellPlan plan) {

  /** Everything published that adds up. */
  List<CellSum> all() {
    List<CellSum> sums = new ArrayList<>();
    for (String column : plan.columns()) {
      for (Dimension dimension : Dimension.SPLITS) {
        if (CellPlan.published(column, dimension)) {
          sums.add(
              sum(
                  new Cell(Slice.ALL, column),
                  cube.slices(dimension).stream().map(slice -> new Cell(slice, column))));
        }
      }
    }
    for (Slice slice : cube.slices()) {
      for (CellPlan.Split split : plan.splits()) {
        if (split.published(slice.dimension())) {
          sums.add(
              sum(
                  new Cell(slice, split.whole()),
                  split.parts().stream().map(part -> new Cell(slice, part))));
        }
      }
      recent(slice, sums);
      for (CellPlan.Part part : plan.inclusions()) {
        // Without a rest one is the other, and who knows that (an old year, nothing missing) has
        // both.
        if (published(slice, part) && rest(slice, part) == 0) {
          sums.add(
              new CellSum(new Cell(slice, part.whole()), List.of(new Cell(slice, part.part()))));
        }
      }
    }
    unrecorded(sums);
    return sums;
  }

  /** Nobody too recent is no secret, and hides nothing: the two others are tied. */
  private CellSum sum(Cell whole, Stream<Cell> parts) {
    return new CellSum(
        whole,
        parts
            .filter(part -> !part.column().startsWith(CellPlan.RECENT) || count(part) > 0)
            .toList());
  }

  /** Those who ended early: what stands in need of company takes first the whole they are of. */
  private void recent(Slice slice, List<CellSum> sums) {
    for (CellPlan.Part part : plan.over()) {
      if (rest(slice, part) > 0) {
        Cell end = new Cell(slice, part.part());
        Cell now = new Cell(slice, part.whole());
        Cell recent = new Cell(slice, part.recent());
        sums.add(new CellSum(end, List.of(now, recent), false));
        sums.add(new CellSum(now, List.of(end, recent)));
      }
    }
  }

  /** Who is in no group of a dimension is told by the field that is missing as well. */
  private void unrecorded(List<CellSum> sums) {
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
                sums.add(new CellSum(all, List.of(with, without)));
              }
            });
    Slice ageless = new Slice(Dimension.AGE, Members.NOT_RECORDED);
    Slice yearless = new Slice(Dimension.YEAR, Members.NOT_RECORDED);
    // The age is that at the first fitting, so the same cases lack both.
    if (cube.count(ageless, "cases") == cube.count(yearless, "cases")) {
      for (String column : plan.columns()) {
        if (published(column, ageless) && !column.startsWith(CellPlan.MODEL)) {
          sums.add(new CellSum(new Cell(ageless, column), List.of(new Cell(yearless, column))));
        }
      }
    }
  }

  private static boolean published(String column, Slice slice) {
    return CellPlan.published(column, slice.dimension());
  }

  private static boolean published(Slice slice, CellPlan.Part part) {
    return published(part.part(), slice) && published(part.whole(), slice);
  }

  private int rest(Slice slice, CellPlan.Part part) {
    return cube.count(slice, part.whole()) - cube.count(slice, part.part());
  }

  private int count(Cell cell) {
    return cube.count(cell.slice(), cell.column());
  }
}
