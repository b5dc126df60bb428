package org.intercusp.treatment.sheet;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;

/** The rows of a sheet that can be placed in a treatment, and why others can't. */
public final class Sheet {

  private final int read;
  private final List<SheetRow> rows;
  private final List<SheetFault> faults;

  /** Put together once: it is asked for at each treatment of a sheet that may name thousands. */
  private final Map<String, List<SheetRow>> byTreatment = new LinkedHashMap<>();

  Sheet(int read, List<SheetRow> rows, List<SheetFault> faults) {
    this.read = read;
    this.rows = List.copyOf(rows);
    this.faults = List.copyOf(faults);
    rows.forEach(
        row -> byTreatment.computeIfAbsent(row.treatment(), id -> new ArrayList<>()).add(row));
  }

  /** How many rows held anything. */
  public int read() {
    return read;
  }

  List<SheetRow> rows() {
    return rows;
  }

  public List<SheetFault> faults() {
    return faults;
  }

  /** The treatments its rows belong to, in the order of the sheet. */
  public Set<String> treatments() {
    return Collections.unmodifiableSet(byTreatment.keySet());
  }

  /** The rows of one treatment, in the order of the sheet. */
  List<SheetRow> of(String treatment) {
    return byTreatment.getOrDefault(treatment, List.of());
  }

  /** Whether a row of the treatment itself is among them, so that it can stand alone. */
  public boolean describes(String treatment) {
    return of(treatment).stream().anyMatch(row -> row.kind() == SheetKind.TREATMENT);
  }
}
