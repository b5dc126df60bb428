package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * The current rows for statisticians, with the data dictionary beside them. One row a case, still
 * personal data: nothing is hidden here, the hashes of person and treatment tell who is the same.
 */
public final class CaseExport {

  /** What the rows are written as. */
  public enum Form {
    PARQUET("cases.parquet"),
    CSV("cases.csv");

    private final String file;

    Form(String file) {
      this.file = file;
    }

    /** The word for it on the command line. */
    @Override
    public String toString() {
      return name().toLowerCase(Locale.ROOT);
    }

    /** Name of the file with the rows. */
    public String file() {
      return file;
    }
  }

  /** Name of the data dictionary: column, type, meaning. */
  public static final String DICTIONARY = "dictionary.csv";

  /** What the store needs and a statistician does not. */
  private static final Set<String> KEPT_BACK = Set.of("submission", "key_id", "content");

  /** Cells that begin so are formulas to a spreadsheet. */
  private static final String FORMULA = "^[=+@\\t\\r\\n-]";

  private final Duck duck;
  private final Parts parts;

  CaseExport(Duck duck, Parts parts) {
    this.duck = duck;
    this.parts = parts;
  }

  /** The columns that leave, in their order. */
  public static List<CaseColumns.Column> columns() {
    return CaseColumns.ALL.stream().filter(each -> !KEPT_BACK.contains(each.name())).toList();
  }

  /** Writes rows and dictionary into a directory; how many rows. */
  long write(Path directory, Form form) throws IOException, SQLException {
    if (!Files.isDirectory(directory)) {
      OwnerAlone.directory(directory);
    }
    String select =
        columns().stream()
            .map(column -> form == Form.CSV ? safe(column) : column.name())
            .collect(Collectors.joining(", ", "SELECT ", " FROM " + parts.from()));
    String how = form == Form.CSV ? "(FORMAT csv, HEADER)" : "(FORMAT parquet, COMPRESSION zstd)";
    WholeFile.write(
        directory.resolve(form.file()),
        file ->
            duck.run(
                "COPY (" + select + " ORDER BY sequence) TO " + Duck.quoted(file) + " " + how));
    // The rows first: a disk too small for them is left as it was.
    WholeFile.write(
        directory.resolve(DICTIONARY),
        file -> Files.writeString(file, dictionary(), StandardCharsets.UTF_8));
    return duck.number("SELECT count(*) FROM " + parts.from());
  }

  /** A leading apostrophe keeps a spreadsheet from reading text as a formula. */
  private static String safe(CaseColumns.Column column) {
    return column.type().equals("VARCHAR")
        ? "CASE WHEN regexp_matches(%1$s, '%2$s') THEN '''' || %1$s ELSE %1$s END AS %1$s"
            .formatted(column.name(), FORMULA)
        : column.name();
  }

  private static String dictionary() {
    StringBuilder text = new StringBuilder("column,type,meaning\r\n");
    for (CaseColumns.Column column : columns()) {
      text.append(column.name())
          .append(',')
          .append(column.type())
          .append(",\"")
          .append(column.meaning().replace("\"", "\"\""))
          .append("\"\r\n");
    }
    return text.toString();
  }
}
