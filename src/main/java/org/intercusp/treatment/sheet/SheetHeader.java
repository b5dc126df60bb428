package org.intercusp.treatment.sheet;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Checks the first row, which names the columns. */
final class SheetHeader {

  private final SheetColumns columns;

  SheetHeader(SheetColumns columns) {
    this.columns = columns;
  }

  List<SheetFault> faults(long line, List<String> header) {
    List<SheetFault> faults = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (int i = 0; i < header.size(); i++) {
      String name = header.get(i);
      if (name.isEmpty() || !columns.isKnown(name)) {
        faults.add(SheetFaults.unknownColumn(line, i + 1, name));
      } else if (!seen.add(name)) {
        faults.add(SheetFaults.twice(line, i + 1, name));
      }
    }
    for (String needed : List.of(SheetColumns.RECORD, SheetColumns.TREATMENT)) {
      if (!seen.contains(needed)) {
        faults.add(SheetFaults.missingColumn(line, needed));
      }
    }
    return faults;
  }
}
