package org.intercusp.registry.bundle;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.hl7.fhir.r4.model.Bundle;
import org.hl7.fhir.utilities.json.model.JsonElement;
import org.hl7.fhir.utilities.json.model.JsonObject;
import org.hl7.fhir.utilities.json.model.JsonProperty;
import org.hl7.fhir.utilities.json.parser.JsonParser;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.intake.OutcomeIntake;
import org.intercusp.registry.intake.RegistryPlace;
import org.intercusp.registry.privacy.Reduction;
import org.intercusp.registry.store.CaseColumns;
import org.intercusp.registry.store.CaseExport;
import org.intercusp.scenario.OutcomeGenerator;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionWriter;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The published view, run by the reference runner of the FHIR core over the Bundles of generated
 * records, against the exported Parquet as the engine reads it, cell by cell.
 */
class OutcomeViewsTest {

  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-11-20T09:00:00Z"), ZoneOffset.UTC);
  private static final FhirContext FHIR = FhirContext.forR4Cached();

  @TempDir Path folder;

  @Test
  void itIsWhatItsWriterWrites() throws IOException {
    assertThat(Files.readString(WriteOutcomeViews.FILE))
        .as("java -cp ... " + WriteOutcomeViews.class.getName() + " writes it")
        .isEqualTo(WriteOutcomeViews.text());
  }

  @Test
  void everyColumnIsInTheViewOrListedWithItsCause() throws Exception {
    Set<String> view = new TreeSet<>();
    run(List.of(bundle(new OutcomeGenerator().records(1, 7).findFirst().orElseThrow())))
        .get(0)
        .keySet()
        .forEach(view::add);
    Map<String, String> beyond = beyond();
    assertThat(beyond.values()).allMatch(cause -> cause.length() > 20);
    assertThat(view).doesNotContainAnyElementsOf(beyond.keySet());
    view.addAll(beyond.keySet());
    assertThat(view)
        .isEqualTo(
            CaseExport.columns().stream()
                .map(CaseColumns.Column::name)
                .collect(Collectors.toCollection(TreeSet::new)));
  }

  @Test
  void theViewSaysWhatTheExportSays() throws Exception {
    // Each person's own records, so that nothing in the registry replaces or hides another.
    List<Submission> records = new ArrayList<>(new OutcomeGenerator().records(250, 7).toList());
    List<Map<String, String>> exported = exported(records);
    List<Map<String, String>> viewed = run(records.stream().map(OutcomeViewsTest::bundle).toList());
    // A correction takes the place of what it corrects: of a submission the last counts.
    Map<String, Map<String, String>> last = new LinkedHashMap<>();
    for (int i = 0; i < records.size(); i++) {
      Submission record = records.get(i);
      last.remove(record.submitter() + record.submission());
      last.put(record.submitter() + record.submission(), viewed.get(i));
    }
    assertThat(exported).hasSizeGreaterThan(230);
    List<Map<String, String>> rows = List.copyOf(last.values());
    assertThat(rows).hasSameSizeAs(exported);
    for (int i = 0; i < rows.size(); i++) {
      Map<String, String> row = new TreeMap<>(exported.get(i));
      row.keySet().removeAll(beyond().keySet());
      assertThat(new TreeMap<>(rows.get(i))).as("row " + i).isEqualTo(row);
    }
    for (String column : rows.get(0).keySet()) {
      assertThat(exported).as(column).anyMatch(row -> !row.get(column).equals("null"));
    }
  }

  private static Bundle bundle(Submission record) {
    return new OutcomeBundles(FHIR, Canonicals.RESERVED, CLOCK).toBundle(record);
  }

  private static List<Map<String, String>> run(List<Bundle> bundles) throws Exception {
    JsonObject view = JsonParser.parseObject(Files.readString(WriteOutcomeViews.FILE));
    List<Map<String, String>> rows = new ArrayList<>();
    for (JsonElement row : ViewRunner.run(view, List.copyOf(bundles))) {
      Map<String, String> cells = new LinkedHashMap<>();
      for (JsonProperty cell : ((JsonObject) row).getProperties()) {
        cells.put(cell.getName(), shown(cell.getValue()));
      }
      rows.add(cells);
    }
    return rows;
  }

  private static String shown(JsonElement value) {
    return switch (value.type()) {
      case NULL -> "null";
      case NUMBER -> new BigDecimal(value.asString()).stripTrailingZeros().toPlainString();
      default -> value.asString();
    };
  }

  private List<Map<String, String>> exported(List<Submission> records) throws Exception {
    RegistryPlace place =
        new RegistryPlace(folder.resolve("registry"), folder.resolve("keys"), Reduction.DEFAULT);
    OutcomeIntake intake = new OutcomeIntake(place, CLOCK);
    ByteArrayOutputStream lines = new ByteArrayOutputStream();
    SubmissionWriter writer = new SubmissionWriter();
    for (Submission record : records) {
      lines.write(writer.write(record));
      lines.write('\n');
    }
    intake.load(
        new ByteArrayInputStream(lines.toByteArray()), (status, refusals) -> {}, () -> false);
    intake.export(folder.resolve("out"), CaseExport.Form.PARQUET);
    Path file = folder.resolve("out").resolve(CaseExport.Form.PARQUET.file());
    try (Connection duck = DriverManager.getConnection("jdbc:duckdb:", new Properties());
        Statement statement = duck.createStatement();
        ResultSet rows =
            statement.executeQuery(
                "SELECT * FROM read_parquet('" + file + "') ORDER BY sequence")) {
      List<Map<String, String>> all = new ArrayList<>();
      while (rows.next()) {
        all.add(row(rows));
      }
      return all;
    }
  }

  private static Map<String, String> row(ResultSet row) throws SQLException {
    Map<String, String> cells = new LinkedHashMap<>();
    for (int i = 1; i <= row.getMetaData().getColumnCount(); i++) {
      Object value = row.getObject(i);
      cells.put(
          row.getMetaData().getColumnName(i),
          value instanceof Double decimal
              ? new BigDecimal(decimal.toString()).stripTrailingZeros().toPlainString()
              : String.valueOf(value));
    }
    return cells;
  }

  /** Column and cause, from the committed list. */
  private static Map<String, String> beyond() throws IOException {
    return Files.readAllLines(Path.of("src/test/resources/registry/beyond-views.tsv")).stream()
        .filter(line -> !line.startsWith("#"))
        .map(line -> line.split("\t", 2))
        .collect(Collectors.toMap(cells -> cells[0], cells -> cells[1]));
  }
}
