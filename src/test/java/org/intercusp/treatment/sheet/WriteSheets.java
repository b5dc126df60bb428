package org.intercusp.treatment.sheet;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/** Writes the template of a sheet and the list of its columns anew, on purpose; no test does. */
public final class WriteSheets {

  static final Path TEMPLATE = Path.of("sample-bundles/records-template.csv");
  static final Path COLUMNS = Path.of("sample-bundles/records-columns.md");

  private static final SheetColumns TAKEN = new SheetColumns();

  private WriteSheets() {}

  /** Takes no arguments. */
  public static void main(String[] arguments) throws IOException {
    Files.writeString(TEMPLATE, template());
    Files.writeString(COLUMNS, columns());
  }

  /** The columns of bites and reviews, with those of the sample {@code stage-change}. */
  static String template() throws IOException {
    return new SheetWriting()
        .add(SheetTest.sample(), SheetKind.BITE, SheetKind.REVIEW)
        .text(TAKEN.header(SheetKind.BITE, SheetKind.REVIEW), ',');
  }

  static String columns() {
    StringBuilder out = new StringBuilder();
    out.append("# Columns of a sheet of records\n\n");
    out.append(
        "One row a record; `record` says which kind, `treatment` the id of its treatment.\n");
    out.append("Lists number their entries: `trimmed.1.amount`, `trimmed.2.amount` and on.\n");
    for (SheetKind kind : SheetKind.values()) {
      out.append("\n## `").append(kind.word()).append("`\n\n");
      out.append("| column | may be empty | what stands in it |\n|---|---|---|\n");
      List<String> header = new ArrayList<>(TAKEN.header(kind));
      header.removeIf(name -> name.equals("record") || name.equals("treatment"));
      header.removeIf(name -> name.contains(".2."));
      for (String column : header) {
        out.append("| `").append(column).append("` | ");
        out.append(TAKEN.isRequired(kind, column) ? "no" : "yes").append(" | ");
        out.append(TAKEN.allowed(kind, column).replace("|", "\\|")).append(" |\n");
      }
    }
    return out.toString();
  }
}
