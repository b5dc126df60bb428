package org.intercusp.treatment.sheet;

import java.util.Map;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Pointer;
import org.intercusp.finding.Severity;
import org.intercusp.finding.Source;
import org.intercusp.finding.Value;
import org.jspecify.annotations.Nullable;

/** Faults of a sheet's own form, in words; those of its values the strict reader says. */
final class SheetFaults {

  private static final Source FORM =
      Source.published("RFC 4180, Common format and MIME type for CSV files");

  private SheetFaults() {}

  static SheetFault tooLarge(long line, String why) {
    return fault(
        line,
        0,
        "",
        "too-large",
        null,
        "The sheet is too large: " + why + ".",
        "Send it in parts.");
  }

  static SheetFault notSheet(long line, String why) {
    return fault(
        line,
        0,
        "",
        "not-csv",
        null,
        "This is not a sheet of records: " + why + ".",
        "Save the sheet as CSV in UTF-8.");
  }

  static SheetFault unknownColumn(long line, int column, String name) {
    return fault(
        line,
        column,
        name,
        "unknown-member",
        name,
        "No record has a column of this name.",
        "Take the column out, or name it as the template does.");
  }

  static SheetFault missingColumn(long line, String name) {
    return fault(
        line, 0, name, "missing-member", null, "The column is missing.", "Add the column.");
  }

  static SheetFault twice(long line, int column, String name) {
    return fault(
        line,
        column,
        name,
        "duplicate-member",
        name,
        "Two columns have this name.",
        "Keep one and take the other out.");
  }

  static SheetFault beyond(long line, int column, String cell) {
    return fault(
        line,
        column,
        "",
        "unknown-member",
        cell,
        "The cell stands beyond the last named column.",
        "Name its column, or quote a cell that holds the sign between cells.");
  }

  static SheetFault noKind(long line, int column, String cell) {
    return fault(
        line,
        column,
        SheetColumns.RECORD,
        cell.isEmpty() ? "missing-member" : "out-of-range",
        cell,
        "The row does not say what it records: treatment, bite, appliance, stage or review.",
        "Write one of these words.");
  }

  static SheetFault noTreatment(long line, int column, String cell) {
    return fault(
        line,
        column,
        SheetColumns.TREATMENT,
        cell.isEmpty() ? "missing-member" : "out-of-range",
        cell,
        "The row does not say which treatment it belongs to.",
        "Write the id of the treatment: letters, digits, point, dash or underscore, at most 64; not"
            + " one or two points alone.");
  }

  static SheetFault notOfKind(long line, int column, String name, SheetKind kind, String cell) {
    return fault(
        line,
        column,
        name,
        "unknown-member",
        cell,
        "A " + kind.word() + " has no such column.",
        "Empty the cell.");
  }

  static SheetFault again(SheetRow row) {
    SheetRow.Cell cell = row.cellOf(row.kind() == SheetKind.TREATMENT ? SheetColumns.RECORD : "id");
    return fault(
        row.line(),
        cell.column(),
        cell.name(),
        "duplicate-id",
        row.id(),
        "Another row above records the same " + row.kind().word() + ".",
        "Keep one of them.");
  }

  static SheetFault homeless(SheetRow row) {
    SheetRow.Cell cell = row.cellOf(SheetColumns.TREATMENT);
    return fault(
        row.line(),
        cell.column(),
        cell.name(),
        "unknown-reference",
        row.treatment(),
        "There is no treatment of this id to add the record to.",
        "Add a row of the treatment itself, or name the treatment that is there.");
  }

  private static SheetFault fault(
      long line,
      int column,
      String name,
      String code,
      @Nullable String value,
      String message,
      String remedy) {
    Finding finding =
        new Finding(
            code,
            Severity.REFUSED,
            Pointer.ROOT,
            "",
            value == null || value.isEmpty() ? null : Value.of(value),
            null,
            null,
            message,
            remedy,
            FORM,
            Map.of());
    return new SheetFault(line, column, name, finding);
  }
}
