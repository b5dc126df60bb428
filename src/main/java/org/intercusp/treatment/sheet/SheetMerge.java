package org.intercusp.treatment.sheet;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.intercusp.finding.Finding;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.TreatmentWriter;
import org.intercusp.treatment.shape.JsonText;
import org.intercusp.treatment.shape.Node;
import org.intercusp.treatment.shape.NotJson;
import org.jspecify.annotations.Nullable;

/**
 * Puts the rows of a sheet into their treatment. A row takes the place of the record with its id,
 * so that the same sheet sent again changes nothing; a new one is put where its date belongs. The
 * strict reader then reads the whole; a row it refuses is left out with the reason and the rest
 * read again.
 */
public final class SheetMerge {

  private final TreatmentReader reader;
  private final TreatmentWriter writer;

  public SheetMerge(TreatmentReader reader, TreatmentWriter writer) {
    this.reader = reader;
    this.writer = writer;
  }

  /**
   * What came of one treatment's rows.
   *
   * @param treatment the treatment with the rows that could be taken; null when none could
   * @param taken how many rows are in it
   */
  public record Merged(@Nullable Treatment treatment, int taken, List<SheetFault> faults) {
    public Merged {
      faults = List.copyOf(faults);
    }
  }

  /**
   * The rows of one treatment put into what is known of it.
   *
   * @param known the treatment as it is; null where only the sheet knows it
   */
  public Merged merge(Sheet sheet, String treatment, @Nullable Treatment known) {
    List<SheetFault> faults = new ArrayList<>();
    List<SheetRow> rows = once(sheet.of(treatment), faults);
    if (known == null && !sheet.describes(treatment)) {
      rows.forEach(row -> faults.add(SheetFaults.homeless(row)));
      return new Merged(null, 0, faults);
    }
    Node.Obj base = known == null ? new Node.Obj(List.of()) : tree(known);
    while (!rows.isEmpty()) {
      Draft draft = Draft.of(base, treatment, rows);
      ReadResult result = reader.read(draft.whole());
      if (result instanceof ReadResult.Accepted accepted) {
        return new Merged(accepted.treatment(), rows.size(), faults);
      }
      List<SheetFault> found = draft.placed(((ReadResult.Refused) result).faults());
      faults.addAll(found);
      rows = without(rows, found);
    }
    return new Merged(null, 0, faults);
  }

  private static List<SheetRow> once(List<SheetRow> rows, List<SheetFault> faults) {
    List<SheetRow> kept = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (SheetRow row : rows) {
      boolean identified = !row.id().isEmpty() || row.kind() == SheetKind.TREATMENT;
      if (identified && !seen.add(row.kind().word() + " " + row.id())) {
        faults.add(SheetFaults.again(row));
      } else {
        kept.add(row);
      }
    }
    return kept;
  }

  /** Where a fault is of the treatment's own row, nothing can be read without it. */
  private static List<SheetRow> without(List<SheetRow> rows, List<SheetFault> found) {
    Set<Long> lines = new HashSet<>();
    found.forEach(fault -> lines.add(fault.line()));
    boolean own =
        rows.stream()
            .anyMatch(row -> row.kind() == SheetKind.TREATMENT && lines.contains(row.line()));
    List<SheetRow> rest = rows.stream().filter(row -> !lines.contains(row.line())).toList();
    return own || rest.size() == rows.size() ? List.of() : rest;
  }

  private Node.Obj tree(Treatment treatment) {
    try {
      return (Node.Obj) JsonText.parse(writer.write(treatment));
    } catch (NotJson e) {
      throw new IllegalStateException(e);
    }
  }

  /** A treatment with rows put in, and which row each part came from. */
  private record Draft(Node.Obj whole, Map<String, SheetRow> origin) {

    static Draft of(Node.Obj base, String treatment, List<SheetRow> rows) {
      Map<String, Node> members = new LinkedHashMap<>();
      base.entries().forEach(entry -> members.put(entry.name(), entry.value()));
      Map<String, SheetRow> origin = new LinkedHashMap<>();
      members.putIfAbsent("format", new Node.Str(Treatment.FORMAT));
      members.put("id", new Node.Str(treatment));
      for (SheetRow row : rows) {
        if (row.kind() == SheetKind.TREATMENT) {
          row.content().entries().forEach(entry -> members.put(entry.name(), entry.value()));
          origin.put("", row);
        }
      }
      for (SheetKind kind : SheetKind.values()) {
        if (!kind.list().isEmpty()) {
          Node list = members.getOrDefault(kind.list(), new Node.Arr(List.of()));
          RecordList merged = RecordList.of(kind, (Node.Arr) list);
          rows.stream().filter(row -> row.kind() == kind).forEach(merged::put);
          members.put(kind.list(), merged.node());
          merged.origin().forEach((at, row) -> origin.put("/" + kind.list() + "/" + at, row));
        }
      }
      List<Node.Entry> entries = new ArrayList<>();
      members.forEach((name, value) -> entries.add(new Node.Entry(name, value)));
      return new Draft(new Node.Obj(entries), origin);
    }

    /** The faults by row; one that no row made is said of the first, since it came with them. */
    List<SheetFault> placed(List<Finding> faults) {
      List<SheetFault> placed = new ArrayList<>();
      for (Finding fault : faults) {
        String pointer = fault.pointer().text();
        String[] steps = pointer.substring(Math.min(1, pointer.length())).split("/", -1);
        SheetRow row = steps.length > 1 ? origin.get("/" + steps[0] + "/" + steps[1]) : null;
        if (row != null) {
          String[] inner = Arrays.copyOfRange(steps, 2, steps.length);
          placed.add(at(row, row.cellOf(inner), fault));
        } else {
          SheetRow own = origin.getOrDefault("", origin.values().iterator().next());
          placed.add(at(own, own.cellOf(steps), fault));
        }
      }
      return placed;
    }

    private static SheetFault at(SheetRow row, SheetRow.Cell cell, Finding fault) {
      return new SheetFault(row.line(), cell.column(), cell.name(), fault);
    }
  }
}
