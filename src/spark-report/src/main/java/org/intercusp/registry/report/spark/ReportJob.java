package org.intercusp.registry.report.spark;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import org.apache.spark.sql.SparkSession;
import org.intercusp.registry.report.Report;
import org.intercusp.registry.report.ReportQuestion;
import org.intercusp.registry.report.form.ReportCsv;

/**
 * The report as a Spark job. Arguments: where the Parquet files lie (a directory, or any place that
 * Spark reads), the day of the cut-off (the end of the last month, quarter or year over by then),
 * the threshold of small cells, the CSV file to write on the machine that drives the job, and the
 * months to which the dates were reduced, 1 if not given.
 */
public final class ReportJob {

  private static final int ARGUMENTS = 4;

  private ReportJob() {}

  public static void main(String[] args) throws Exception {
    if (args.length != ARGUMENTS && args.length != ARGUMENTS + 1) {
      System.err.println("arguments: CASES CUT-OFF THRESHOLD CSV [DATE-MONTHS]");
      System.exit(2);
    }
    ReportQuestion question =
        ReportQuestion.asked(LocalDate.parse(args[1]), LocalDate.now(), Integer.parseInt(args[2]))
            .reduced(args.length > ARGUMENTS ? Integer.parseInt(args[ARGUMENTS]) : 1);
    // Spark makes a warehouse, though nothing is kept: not where the job happens to be started.
    Path warehouse = Files.createTempDirectory("registry-report");
    try (SparkSession spark =
        SparkSession.builder()
            .appName("registry report")
            .config("spark.sql.warehouse.dir", warehouse.toUri().toString())
            .getOrCreate()) {
      Report report = Report.of(SparkRows.over(spark, args[0]), question);
      Files.write(Path.of(args[3]), ReportCsv.write(report).getBytes(StandardCharsets.UTF_8));
    }
    Files.deleteIfExists(warehouse);
  }
}
