package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.intercusp.registry.report.form.ReportCsv;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The whole report by Apache Spark in local mode beside that of the embedded engine over the same
 * Parquet files: a process of its own, since Spark's libraries are older than ours.
 */
@Tag("long")
class SparkReportIT {

  private static final Path BUILT = Path.of("target/spark-report/target");

  /** What Spark opens for itself on Java 17 (its own JavaModuleOptions). */
  private static final List<String> OPENED =
      List.of(
          "lang",
          "lang.invoke",
          "lang.reflect",
          "io",
          "net",
          "nio",
          "util",
          "util.concurrent",
          "util.concurrent.atomic");

  private static final List<String> OPENED_INSIDE =
      List.of(
          "jdk.internal.ref",
          "sun.nio.ch",
          "sun.nio.cs",
          "sun.security.action",
          "sun.util.calendar");

  @TempDir Path folder;

  @Test
  void bothEnginesReportTheSame() throws Exception {
    Path cases = folder.resolve("cases");
    OutcomeRows.write(cases, 20_000, 12);
    LocalDate cutOff = LocalDate.of(2026, 6, 30);
    String embedded = ReportCsv.write(Reports.over(cases).of(new ReportQuestion(cutOff, 5)));
    Map<String, CSVRecord> ours = figures(embedded);
    Map<String, CSVRecord> sparks = figures(bySpark(cases, cutOff));
    assertThat(sparks.keySet()).containsExactlyElementsOf(ours.keySet());
    ours.forEach((key, figure) -> same(key, figure, sparks.get(key)));
  }

  private static void same(String key, CSVRecord ours, CSVRecord sparks) {
    assertThat(sparks.get("absent")).as(key).isEqualTo(ours.get("absent"));
    if (ours.get("value").isEmpty() || isCount(ours)) {
      assertThat(sparks.get("value")).as(key).isEqualTo(ours.get("value"));
      return;
    }
    double value = Double.parseDouble(ours.get("value"));
    boolean modelled = ours.get("measure").startsWith("mix-");
    double bound = (modelled ? 1e-6 : 1e-9) * Math.max(1e-6, Math.abs(value));
    assertThat(Double.parseDouble(sparks.get("value"))).as(key).isCloseTo(value, within(bound));
  }

  /** What a model expects is counted in cases too, but is no count. */
  private static boolean isCount(CSVRecord figure) {
    return figure.get("unit").equals("{case}") && !figure.get("statistic").equals("expected");
  }

  private static Map<String, CSVRecord> figures(String csv) throws IOException {
    Map<String, CSVRecord> figures = new LinkedHashMap<>();
    CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
    for (CSVRecord line : format.parse(new StringReader(csv))) {
      figures.put(
          String.join(
              "|",
              line.get("measure"),
              line.get("dimension"),
              line.get("group"),
              line.get("statistic")),
          line);
    }
    return figures;
  }

  private String bySpark(Path cases, LocalDate cutOff) throws Exception {
    Path csv = folder.resolve("report.csv");
    Path log = folder.resolve("spark.log");
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    OPENED.forEach(each -> command.add("--add-opens=java.base/java." + each + "=ALL-UNNAMED"));
    OPENED_INSIDE.forEach(each -> command.add("--add-opens=java.base/" + each + "=ALL-UNNAMED"));
    command.addAll(
        List.of(
            "-Xmx1g",
            "-Dspark.master=local[2]",
            "-Dspark.ui.enabled=false",
            "-Dspark.sql.shuffle.partitions=2",
            "-Dspark.local.dir=" + folder,
            "-cp",
            BUILT.resolve("spark-report.jar")
                + ":"
                + Files.readString(BUILT.resolve("spark.classpath")),
            "org.intercusp.registry.report.spark.ReportJob",
            cases.toString(),
            cutOff.toString(),
            "5",
            csv.toString()));
    Process spark =
        new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(log.toFile()).start();
    try {
      assertThat(spark.waitFor(10, TimeUnit.MINUTES)).isTrue();
      assertThat(spark.exitValue()).as(() -> tail(log)).isZero();
    } finally {
      spark.destroyForcibly();
    }
    return Files.readString(csv);
  }

  private static String tail(Path log) {
    try {
      String text = Files.readString(log);
      return text.substring(Math.max(0, text.length() - 3000));
    } catch (IOException e) {
      return e.toString();
    }
  }
}
