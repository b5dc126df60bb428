package org.intercusp.registry.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What leaves for statisticians; the file is read by a CSV reader that is not ours. */
class CaseExportTest {

  private static final List<String> FORMULAS =
      List.of("=1+1", "+1", "-1+2", "@SUM(A1)", "\t=1", "\r=1", "\n=1");

  @TempDir Path folder;

  @Test
  void noTextIsAFormulaAndNothingElseChanges() throws Exception {
    Path to = folder.resolve("out");
    try (Duck duck = new Duck(folder.resolve("spill"))) {
      duck.run("CREATE TABLE batch (" + CaseColumns.declared() + ")");
      for (int i = 0; i < FORMULAS.size(); i++) {
        duck.run(
            "INSERT INTO batch (sequence, submitter, reason, start_overjet, submission) VALUES ("
                + "%d, '%s', 'plain, \"quoted\"', -2.5, 'kept-back')"
                    .formatted(i, FORMULAS.get(i)));
      }
      Parts parts = new Parts(folder, duck);
      duck.run("COPY batch TO " + Duck.quoted(folder.resolve("cases/part-1.parquet")));
      assertThat(new CaseExport(duck, parts).write(to, CaseExport.Form.CSV)).isEqualTo(7);
    }
    Path file = to.resolve("cases.csv");
    assertThat(Files.readString(file)).doesNotContain("kept-back");
    CSVFormat headed = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    try (CSVParser parser = CSVParser.parse(file, StandardCharsets.UTF_8, headed)) {
      List<CSVRecord> rows = parser.getRecords();
      assertThat(rows.stream().map(row -> row.get("submitter")))
          .isEqualTo(FORMULAS.stream().map(text -> "'" + text).toList());
      assertThat(rows)
          .allMatch(row -> row.get("reason").equals("plain, \"quoted\""))
          .allMatch(row -> row.get("start_overjet").equals("-2.5"))
          .allMatch(row -> row.get("clinic").isEmpty());
    }
  }

  @Test
  void anExportThatFailsLeavesTheOneBefore() throws Exception {
    Path to = Files.createDirectories(folder.resolve("out"));
    Path cases = Files.writeString(to.resolve("cases.csv"), "the one before");
    try (Duck duck = new Duck(folder.resolve("spill"))) {
      duck.run("CREATE TABLE batch (" + CaseColumns.declared() + ")");
      Parts parts = new Parts(folder, duck);
      // A row in the middle that no column of the export can be: written so far, then refused.
      duck.run("INSERT INTO batch (sequence) SELECT range FROM range(300000)");
      duck.run(
          "COPY (SELECT * REPLACE (CASE WHEN sequence = 299999 THEN 'x' ELSE '1' END AS clinic)"
              + " FROM batch) TO "
              + Duck.quoted(folder.resolve("cases/part-1.parquet")));
      duck.run("CREATE MACRO regexp_matches(a, b) AS a = 'x' AND error('the disk is full')");
      assertThatThrownBy(() -> new CaseExport(duck, parts).write(to, CaseExport.Form.CSV))
          .hasMessageContaining("the disk is full");
    }
    assertThat(cases).hasContent("the one before");
    try (var files = Files.list(to)) {
      assertThat(files.map(file -> file.getFileName().toString())).containsExactly("cases.csv");
    }
  }
}
