package org.intercusp.measured;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
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
 * run, medians of three; the models are timed apart. Arguments: numbers of cases.
 */
public final class ReportRate {

  private static final int TIMES = 3;
  private static final ReportQuestion QUESTION = ReportQuestion.at(LocalDate.of(2026, 6, 30));

  private ReportRate() {}

  public static void main(String[] args) throws Exception {
    for (String arg : args) {
      int number = Integer.parseInt(arg);
      Path cases = Path.of("target/report-rate-" + number);
      if (!Files.exists(cases)) {
        OutcomeRows.write(cases, number, 60);
      }
      try (DuckRows rows = DuckRows.over(cases, 512)) {
        measure(number, rows);
      }
    }
  }

  private static void measure(int number, DuckRows rows) {
    String scan = scan(rows);
    List<Double> scans = new ArrayList<>();
    List<Double> gathers = new ArrayList<>();
    List<Double> reports = new ArrayList<>();
    for (int i = 0; i < TIMES; i++) {
      scans.add(seconds(() -> rows.each(scan, row -> {})));
      gathers.add(seconds(() -> new Gathering(rows, QUESTION).gather()));
      List<Report> made = new ArrayList<>();
      reports.add(seconds(() -> made.add(Report.of(rows, QUESTION))));
    }
    Gathering gathering = new Gathering(rows, QUESTION);
    gathering.gather();
    double patterns =
        seconds(
            () -> {
              for (MixOutcome outcome : MixOutcome.values()) {
                gathering.patterns(outcome);
              }
            });
    System.out.printf(
        "%d cases: scan %.2f s, gathering %.2f s (%.2f scans), whole report with models %.2f s, model rows %.2f s, %.2f us a case%n",
        number,
        median(scans),
        median(gathers),
        median(gathers) / median(scans),
        median(reports),
        patterns,
        1e6 * median(gathers) / number);
  }

  /** Sums of every column that the report's SQL names, lengths for text. */
  private static String scan(DuckRows rows) {
    Set<String> named = new TreeSet<>();
    for (String query :
        List.of(
            "dropped",
            "counted",
            "paired",
            "cells",
            "harms",
            "known",
            "ends",
            "attended",
            "agreement")) {
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

  private static double seconds(Runnable run) {
    long start = System.nanoTime();
    run.run();
    return (System.nanoTime() - start) / 1e9;
  }

  private static double median(List<Double> values) {
    List<Double> sorted = new ArrayList<>(values);
    Collections.sort(sorted);
    return sorted.get(sorted.size() / 2);
  }
}
