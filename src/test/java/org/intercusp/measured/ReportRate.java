package org.intercusp.measured;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import org.intercusp.registry.report.DuckRows;
import org.intercusp.registry.report.OutcomeRows;
import org.intercusp.registry.report.ReportQuestion;

public final class ReportRate {
  public static void main(String[] args) throws Exception {
    int number = Integer.parseInt(args[0]);
    Path at = Path.of("target/report-rate-" + number);
    if (!Files.exists(at)) OutcomeRows.write(at, number, 60);
    try (DuckRows rows = DuckRows.over(at, 512)) {
      for (int i = 0; i < 3; i++) {
        long t0 = System.nanoTime();
        Object o =
            org.intercusp.registry.report.Report.of(
                rows, ReportQuestion.at(LocalDate.of(2026, 6, 30)));
        System.out.println("gather ms " + (System.nanoTime() - t0) / 1e6);
        for (String q : new String[] {"dropped", "cells", "ends", "attended", "agreement"}) {
          t0 = System.nanoTime();
          String sql =
              new String(
                  Files.readAllBytes(
                      Path.of("src/main/resources/org/intercusp/registry/report/" + q + ".sql")));
          int[] n = {0};
          rows.each(sql, r -> n[0]++);
          System.out.println(q + " rows " + n[0] + " ms " + (System.nanoTime() - t0) / 1e6);
        }
        StringBuilder scan = new StringBuilder("SELECT 1");
        rows.each(
            "SELECT column_name FROM (DESCRIBE SELECT * FROM cases) WHERE column_name NOT LIKE 'retention\\_%' ESCAPE '\\' AND column_name NOT LIKE 'end\\_active%' ESCAPE '\\' AND column_name NOT IN ('key_id','received_month')",
            r -> scan.append(", max(" + r.text("column_name") + ")"));
        t0 = System.nanoTime();
        rows.each(scan + " FROM cases", r -> {});
        System.out.println("scan ms " + (System.nanoTime() - t0) / 1e6);
      }
    }
  }
}
