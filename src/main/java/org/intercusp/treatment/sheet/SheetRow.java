package org.intercusp.treatment.sheet;

import java.util.Comparator;
import java.util.Map;
import org.intercusp.treatment.shape.Node;

/**
 * One record of a sheet.
 *
 * @param line the line its row starts on, from 1
 * @param treatment id of the treatment it belongs to
 * @param id its own id; empty for the treatment itself or where the cell is empty
 * @param cells the column each filled cell stands in, from 1, by its name
 */
record SheetRow(
    long line,
    SheetKind kind,
    String treatment,
    String id,
    Node.Obj content,
    Map<String, Integer> cells) {

  SheetRow {
    cells = Map.copyOf(cells);
  }

  /** The cell a fault is about, found by the members that lead to it; else the row's. */
  Cell cellOf(String... steps) {
    String column = "";
    for (String step : steps) {
      String next = step.matches("[0-9]+") ? numbered(column, Integer.parseInt(step)) : step;
      if (next.isEmpty()) {
        break;
      }
      column = column.isEmpty() ? next : column + "." + next;
    }
    String name = column;
    while (!column.isEmpty()) {
      Integer number = cells.get(column);
      if (number != null) {
        return new Cell(number, column);
      }
      column = column.substring(0, Math.max(0, column.lastIndexOf('.')));
    }
    return new Cell(0, name);
  }

  /** The number in the column names of a nested list's entry; empty for a list within one cell. */
  private String numbered(String list, int index) {
    return cells.keySet().stream()
        .filter(name -> name.startsWith(list + "."))
        .map(name -> name.substring(list.length() + 1).split("\\.", 2)[0])
        .distinct()
        .sorted(Comparator.comparingInt(Integer::parseInt))
        .skip(index)
        .findFirst()
        .orElse("");
  }

  /** A cell; column 0 where the row has no such cell. */
  record Cell(int column, String name) {}
}
