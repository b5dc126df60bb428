package org.intercusp.measured;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.ToDoubleFunction;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.intercusp.registry.report.DuckRows;
import org.intercusp.registry.report.Gathering;
import org.intercusp.registry.report.MixOutcome;
import org.intercusp.registry.report.OutcomeRows;
import org.intercusp.registry.report.Report;
import org.intercusp.registry.report.ReportQuestion;

/**
 * What a report costs beside a plain scan of the columns it reads, by the same engine in the same
 * run, medians of three; the models are timed apart. Arguments: numbers of cases, made for it, or
 * directories of a registry's Parquet files.
 */
public final class ReportRate {

  private static final int TIMES = 3;
  private static final ReportQuestion QUESTION = ReportQuestion.at(LocalDate.of(2026, 6, 30));

  private ReportRate() {}

  public static void main(String[] args) throws Exception {
    for (String arg : args) {
      boolean made = arg.matches("[0-9]+");
      Path cases = made ? Path.of("target/report-rate-" + arg) : Path.of(arg);
      if (made && !Files.exists(cases)) {
        OutcomeRows.write(cases, Integer.parseInt(arg), 60);
      }
      try (DuckRows rows = DuckRows.over(cases, 512)) {
        measure(rows);
      }
    }
  }

  private static void measure(DuckRows rows) {
    long[] number = new long[1];
    rows.each("SELECT count(*) AS n FROM cases", row -> number[0] = row.whole("n"));
    String scan = scan(rows);
    List<Cost> scans = new ArrayList<>();
    List<Cost> gathers = new ArrayList<>();
    List<Cost> reports = new ArrayList<>();
    for (int i = 0; i < TIMES; i++) {
      scans.add(Cost.of(() -> rows.each(scan, row -> {})));
      gathers.add(Cost.of(() -> new Gathering(rows, QUESTION).gather()));
      reports.add(Cost.of(() -> Report.of(rows, QUESTION)));
    }
    Gathering gathering = new Gathering(rows, QUESTION);
    gathering.gather();
    Cost patterns =
        Cost.of(
            () -> {
              for (MixOutcome outcome : MixOutcome.values()) {
                gathering.patterns(outcome);
              }
            });
    double ratio = median(gathers, Cost::seconds) / median(scans, Cost::seconds);
    double work = median(gathers, Cost::processor) / median(scans, Cost::processor);
    System.out.printf(
        "%d cases: scan %.2f s, gathering %.2f s, %.2f scans; processor time %.2f s, %.2f s, %.2f scans;"
            + " whole report with models %.2f s, model rows %.2f s, %.2f us a case%n",
        number[0],
        median(scans, Cost::seconds),
        median(gathers, Cost::seconds),
        ratio,
        median(scans, Cost::processor),
        median(gathers, Cost::processor),
        work,
        median(reports, Cost::seconds),
        patterns.seconds(),
        1e6 * median(gathers, Cost::seconds) / number[0]);
  }

  /** Sums of every column that the report's SQL names, lengths for text. */
  private static String scan(DuckRows rows) {
    Set<String> named = new TreeSet<>();
    for (String query :
        List.of(
            "identity",
            "dropped",
            "counted",
            "scored",
            "courses",
            "paired",
            "cells",
            "agreement",
            "members")) {
      try {
        Matcher words =
            Pattern.compile("[a-z_0-9]+")
                .matcher(
                    Files.readString(
                        Path.of(
                            "src/main/resources/org/intercusp/registry/report/" + query + ".sql")));
        while (words.find()) {
          named.add(words.group());
        }
      } catch (java.io.IOException fault) {
        throw new java.io.UncheckedIOException(fault);
      }
    }
    List<String> sums = new ArrayList<>();
    rows.each(
        "SELECT column_name AS n, column_type AS t FROM (DESCRIBE SELECT * FROM cases)",
        row -> {
          String name = String.valueOf(row.text("n"));
          if (named.contains(name)) {
            sums.add(
                "VARCHAR".equals(row.text("t"))
                    ? "sum(strlen(" + name + "))"
                    : "sum(" + name + ")");
          }
        });
    return "SELECT " + String.join(", ", sums) + " FROM cases";
  }

  private static double median(List<Cost> costs, ToDoubleFunction<Cost> what) {
    return costs.stream().mapToDouble(what).sorted().toArray()[costs.size() / 2];
  }

  /** Time by the clock, and of all processors, which others on the machine lengthen less. */
  private record Cost(double seconds, double processor) {
    static Cost of(Runnable run) {
      Duration before = processorTime();
      long start = System.nanoTime();
      run.run();
      long end = System.nanoTime();
      return new Cost((end - start) / 1e9, processorTime().minus(before).toMillis() / 1e3);
    }

    private static Duration processorTime() {
      return ProcessHandle.current().info().totalCpuDuration().orElse(Duration.ZERO);
    }
  }
}
