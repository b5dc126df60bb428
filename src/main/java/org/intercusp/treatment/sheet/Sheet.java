package org.intercusp.treatment.sheet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * The rows of a sheet that can be placed in a treatment, and why others can't.
 *
 * @param read rows that held anything
 */
public record Sheet(int read, List<SheetRow> rows, List<SheetFault> faults) {

  public Sheet {
    rows = List.copyOf(rows);
    faults = List.copyOf(faults);
  }

  /** The treatments its rows belong to, in the order of the sheet. */
  public Set<String> treatments() {
    return byTreatment().keySet();
  }

  /** The rows of one treatment, in the order of the sheet. */
  List<SheetRow> of(String treatment) {
    return byTreatment().getOrDefault(treatment, List.of());
  }

  /** Whether a row of the treatment itself is among them, so that it can stand alone. */
  public boolean describes(String treatment) {
    return of(treatment).stream().anyMatch(row -> row.kind() == SheetKind.TREATMENT);
  }

  private Map<String, List<SheetRow>> byTreatment() {
    Map<String, List<SheetRow>> all = new LinkedHashMap<>();
    rows.forEach(row -> all.computeIfAbsent(row.treatment(), id -> new ArrayList<>()).add(row));
    return all;
  }
}
