package org.intercusp.registry.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.intercusp.registry.report.form.ReportCsv;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The whole report by Apache Spark beside that of the embedded engine over the same Parquet files,
 * submitted as {@code spark-submit} does it: in local mode, and to a cluster of a master and two
 * workers. Processes of their own, since Spark's libraries are older than ours.
 */
@Tag("long")
class SparkReportIT {

  @TempDir Path folder;

  @Test
  void bothEnginesReportTheSameInLocalMode() throws Exception {
    bothReportTheSame("local[2]");
  }

  @Test
  void bothEnginesReportTheSameOnACluster() throws Exception {
    try (SparkCluster cluster = SparkCluster.started(SparkProcess.HOME)) {
      bothReportTheSame(cluster.master());
      assertThat(cluster.executors()).isEqualTo(2);
    }
  }

  private void bothReportTheSame(String master) throws Exception {
    Path cases = folder.resolve("cases");
    OutcomeRows.write(cases, 20_000, 12);
    LocalDate cutOff = LocalDate.of(2026, 6, 30);
    String embedded = ReportCsv.write(Reports.over(cases).of(new ReportQuestion(cutOff, 5)));
    Map<String, CSVRecord> ours = figures(embedded);
    Map<String, CSVRecord> sparks = figures(bySpark(master, cases, cutOff));
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

  private String bySpark(String master, Path cases, LocalDate cutOff) throws Exception {
    Path csv = folder.resolve("report.csv");
    SparkProcess spark =
        SparkProcess.start(
            SparkProcess.HOME,
            "submit",
            "org.apache.spark.deploy.SparkSubmit",
            List.of(
                "--master",
                master,
                "--driver-memory",
                "1g",
                "--conf",
                "spark.ui.enabled=false",
                "--conf",
                "spark.sql.shuffle.partitions=2",
                "--conf",
                "spark.local.dir=" + folder,
                "--conf",
                "spark.driver.host=127.0.0.1",
                "--class",
                "org.intercusp.registry.report.spark.ReportJob",
                SparkProcess.BUILT.resolve("spark-report.jar").toString(),
                cases.toString(),
                cutOff.toString(),
                "5",
                csv.toString()));
    try (spark) {
      assertThat(spark.exit()).as(spark::tail).isZero();
    }
    return Files.readString(csv);
  }
}
