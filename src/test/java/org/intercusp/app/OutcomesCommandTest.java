package org.intercusp.app;

import static org.assertj.core.api.Assertions.assertThat;

import ca.uhn.fhir.context.FhirContext;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.Statement;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.hl7.fhir.r4.model.MeasureReport;
import org.intercusp.cli.CommandLineDoor;
import org.intercusp.registry.store.CaseExport;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.boot.WebApplicationType;
import org.springframework.boot.builder.SpringApplicationBuilder;
import org.springframework.context.ConfigurableApplicationContext;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The registry on the command line, from records to report and export. */
class OutcomesCommandTest {

  private static final String CUT_OFF = "2026-06-30";

  @TempDir Path folder;

  @Test
  void fromRecordsToReportAndExport() throws Exception {
    String records = run("generate", "--treatments", "300", "--seed", "7", "--as", "outcomes");
    assertThat(records.lines()).hasSize(300).allMatch(line -> line.startsWith("{\"format\""));
    Path file = Files.writeString(folder.resolve("o.ndjson"), records);

    String first = run("outcomes", "load", file.toString());
    assertThat(first).startsWith("300 read = ").contains(" 0 same ", " 0 refused ");
    long rows = 300 - Long.parseLong(first.replaceFirst("(?s).* (\\d+) replaced.*", "$1"));
    assertThat(run("outcomes", "load", file.toString()))
        .startsWith("300 read = 0 new + 300 same + 0 replaced + 0 refused");

    everyForm();
    export(rows);
    assertThat(run("outcomes", "export", "--help")).contains("parquet, csv");
    assertThat(run("outcomes", "report", "--help")).contains("text, json, csv, fhir, html");
  }

  private void everyForm() {
    JsonNode json = new JsonMapper().readTree(report("json"));
    assertThat(json.path("cutOff").asString()).isEqualTo(CUT_OFF);
    assertThat(report("csv")).startsWith("measure,dimension,group,").contains("counting,all,");
    assertThat(report("text"))
        .contains("Decision support for licensed clinicians; the clinician decides.");
    assertThat(report("html")).startsWith("<!DOCTYPE html>").contains("<svg").endsWith("</html>");
    MeasureReport fhir =
        FhirContext.forR4Cached()
            .newJsonParser()
            .parseResource(MeasureReport.class, report("fhir"));
    assertThat(fhir.getPeriod().getEndElement().getValueAsString()).startsWith(CUT_OFF);
  }

  private String report(String format) {
    return run("outcomes", "report", "--format", format, "--cut-off", CUT_OFF);
  }

  private void export(long rows) throws Exception {
    Path to = folder.resolve("export");
    for (CaseExport.Form form : CaseExport.Form.values()) {
      assertThat(run("outcomes", "export", "--format", form.name(), "--to", to.toString()))
          .startsWith(rows + " rows in ");
      if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
        assertThat(Files.getPosixFilePermissions(to.resolve(form.file())))
            .isEqualTo(PosixFilePermissions.fromString("rw-------"));
      }
    }
    List<String> names = CaseExport.columns().stream().map(column -> column.name()).toList();
    List<CSVRecord> lines = csv(to.resolve(CaseExport.Form.CSV.file()));
    List<CSVRecord> words = csv(to.resolve(CaseExport.DICTIONARY));
    assertThat(lines.get(0).toList()).isEqualTo(names);
    assertThat(words.stream().skip(1).map(each -> each.get(0))).isEqualTo(names);
    assertThat(words).allMatch(each -> each.size() == 3 && !each.get(2).isBlank());
    assertThat(lines).hasSize((int) rows + 1);
    sameInParquet(to.resolve(CaseExport.Form.PARQUET.file()), names, lines);
  }

  /** A hash may begin with a hyphen, and then has the apostrophe that keeps it text. */
  private static String text(String value) {
    return value.replaceFirst("^(?=[=+@-])", "'");
  }

  private static void sameInParquet(Path parquet, List<String> names, List<CSVRecord> lines)
      throws Exception {
    try (Connection duck = DriverManager.getConnection("jdbc:duckdb:", new Properties());
        Statement statement = duck.createStatement();
        ResultSet found = statement.executeQuery("SELECT * FROM '" + parquet + "'")) {
      int line = 1;
      while (found.next()) {
        for (int i = 0; i < names.size(); i++) {
          String cell = lines.get(line).get(i);
          String value = found.getString(names.get(i));
          boolean number = found.getObject(names.get(i)) instanceof Number;
          assertThat(cell)
              .as(names.get(i) + " of line " + line)
              .isEqualTo(value == null ? "" : number ? value : text(value));
        }
        line++;
      }
      assertThat(line).isEqualTo(lines.size());
    }
  }

  private static List<CSVRecord> csv(Path file) throws Exception {
    try (CSVParser parser = CSVParser.parse(file, StandardCharsets.UTF_8, CSVFormat.RFC4180)) {
      return parser.getRecords();
    }
  }

  private String run(String... words) {
    try (Overheard said = new Overheard();
        ConfigurableApplicationContext rooms =
            new SpringApplicationBuilder(
                    RoomWiring.class,
                    RegistryWiring.class,
                    ReportWiring.class,
                    CommandLineDoor.class)
                .web(WebApplicationType.NONE)
                .lazyInitialization(true)
                .registerShutdownHook(false)
                .properties(Map.of("logging.threshold.console", "OFF"))
                // As an argument: a default would lose to the settings file.
                .run("--intercusp.data=" + folder)) {
      assertThat(rooms.getBean(CommandLineDoor.class).run(words)).isZero();
      return said.out();
    }
  }
}
