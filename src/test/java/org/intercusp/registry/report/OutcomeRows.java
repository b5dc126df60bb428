package org.intercusp.registry.report;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;

/** Invented outcome rows in the registry's Parquet layout, the same for the same number. */
public final class OutcomeRows {

  private static final List<String> HARMS =
      List.of(
          "caries",
          "white_spot",
          "gingivitis",
          "ulcer",
          "allergy",
          "joint",
          "incisor_trauma",
          "root_resorption",
          "fragment_swallowed",
          "fragment_inhaled",
          "other");

  private OutcomeRows() {}

  /** A number 0 to 1 by case and salt. */
  private static String draw(int salt) {
    return "(hash(i * 1000003 + " + salt + ") % 1000000 / 1000000.0)";
  }

  /** A whole number from 0 to most. */
  private static String whole(int salt, int most) {
    return "CAST(floor(" + draw(salt) + " * " + (most + 1) + ") AS INT)";
  }

  private static String some(int salt, double share, String value) {
    return "CASE WHEN " + draw(salt) + " < " + share + " THEN " + value + " END";
  }

  /** Writes so many cases of so many clinics, and a few submitted twice or moved. */
  public static void write(Path cases, int number, int clinics) throws IOException, SQLException {
    Files.createDirectories(cases);
    try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = connection.createStatement()) {
      statement.execute(
          "COPY ("
              + select(number, clinics)
              + ") TO '"
              + cases.resolve("part-0.parquet")
              + "' (FORMAT parquet)");
    }
  }

  /** Writes the same cases anew with some columns otherwise, as SQL gives them. */
  public static void change(Path cases, String replaced) throws SQLException {
    Path file = cases.resolve("part-0.parquet");
    try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = connection.createStatement()) {
      statement.execute(
          "CREATE TABLE changed AS SELECT * REPLACE (" + replaced + ") FROM '" + file + "'");
      statement.execute("COPY changed TO '" + file + "' (FORMAT parquet)");
    }
  }

  private static String select(int number, int clinics) {
    StringBuilder sql =
        new StringBuilder(
            "SELECT 'S' || (i % "
                + clinics
                + ") AS submitter, 'n' || i AS submission, i AS sequence, '2026-03' AS received_month,");
    // Every 97th person was entered before: the same treatment again, or from another clinic.
    sql.append(
        " sha256('p' || (CASE WHEN i % 97 = 96 THEN i - 1 ELSE i END)) AS person, 'k1' AS key_id,");
    sql.append(
        " 'urn:clinics|C' || lpad(CAST(i * i % " + clinics + " AS VARCHAR), 3, '0') AS clinic,");
    sql.append(" sha256('t' || (CASE WHEN i % 194 = 96 THEN i - 1 ELSE i END)) AS treatment,");
    sql.append(
        " CASE WHEN "
            + draw(1)
            + " < 0.53 THEN 'female' WHEN "
            + draw(1)
            + " < 0.99 THEN 'male' ELSE 'unknown' END AS sex,");
    sql.append(" 110 + " + whole(2, 45) + " + " + whole(3, 45) + " AS age_months,");
    sql.append(some(4, 0.8, "'CS' || (1 + " + whole(5, 5) + ")") + " AS growth_stage,");
    sql.append(
        " CASE WHEN "
            + draw(6)
            + " < 0.9 THEN 'twin-block' WHEN "
            + draw(6)
            + " < 0.99 THEN 'anterior-inclined-plane' ELSE 'retainer' END AS appliance,");
    sql.append(
        " CAST(y AS VARCHAR) || '-' || lpad(CAST(1 + "
            + whole(8, 11)
            + " AS VARCHAR), 2, '0') AS first_fitted_month, y AS start_year,");
    sql.append(
        " st AS status, CASE WHEN st IN ('patient-stopped', 'discontinued-by-clinician') THEN 'non-wear' END AS reason,");
    sql.append(
        " CASE WHEN st NOT IN ('in-treatment', 'unknown') THEN 120 + "
            + whole(10, 300)
            + " + "
            + whole(11, 400)
            + " END AS treatment_days,");
    sql.append(" 100 + " + whole(10, 300) + " + " + whole(11, 400) + " AS last_attended_days,");
    sql.append(
        " 180 + "
            + whole(12, 150)
            + " AS active_days, 90 + "
            + whole(13, 60)
            + " AS support_days, NULL::INT AS fixed_days, "
            + some(14, 0.5, "270")
            + " AS retention_days,");
    sql.append(
        " 4 + "
            + whole(15, 9)
            + " AS reviews, "
            + some(16, 0.8, "(60 + " + whole(17, 160) + ") / 10.0")
            + " AS wear_reported, "
            + some(18, 0.25, "(50 + " + whole(19, 150) + ") / 10.0")
            + " AS wear_measured,");
    sql.append(
        " CASE WHEN " + draw(20) + " < 0.2 THEN 1 + " + whole(21, 2) + " ELSE 0 END AS breakages,");
    for (int h = 0; h < HARMS.size(); h++) {
      sql.append(
          " CASE WHEN "
              + draw(30 + h)
              + " < "
              + (h < 4 ? 0.04 : 0.002)
              + " THEN 1 ELSE 0 END AS ae_"
              + HARMS.get(h)
              + ",");
    }
    sql.append(" CASE WHEN " + draw(41) + " < 0.001 THEN 1 ELSE 0 END AS ae_serious");
    int salt = 100;
    for (String phase : List.of("start", "end_active", "end", "retention")) {
      phase(sql, phase, salt);
      salt += 100;
    }
    sql.append(
        ", CASE WHEN "
            + draw(50)
            + " < 0.05 THEN 20 + "
            + whole(51, 30)
            + " END AS second_par_uk_first");
    sql.append(
        ", CASE WHEN "
            + draw(50)
            + " < 0.05 THEN 20 + "
            + whole(51, 30)
            + " + "
            + whole(52, 2)
            + " - 1 END AS second_par_uk_again, CASE WHEN "
            + draw(50)
            + " < 0.05 THEN 'start' END AS second_phase");
    return sql
        + " FROM (SELECT i, CAST(2017 + "
        + whole(7, 8)
        + " AS INT) AS y, CASE WHEN i % 194 = 95 AND i % 388 <> 95 THEN 'transferred'"
        + " WHEN "
        + draw(9)
        + " < 0.62 THEN 'completed' WHEN "
        + draw(9)
        + " < 0.75 THEN 'patient-stopped' WHEN "
        + draw(9)
        + " < 0.8 THEN 'lost-to-follow-up'"
        + " WHEN "
        + draw(9)
        + " < 0.83 THEN 'discontinued-by-clinician' WHEN "
        + draw(9)
        + " < 0.86 THEN 'transferred' WHEN "
        + draw(9)
        + " < 0.9 THEN 'unknown' ELSE 'in-treatment' END AS st"
        + " FROM range("
        + number
        + ") AS r(i)) AS base";
  }

  private static void phase(StringBuilder sql, String phase, int salt) {
    boolean start = phase.equals("start");
    double share =
        switch (phase) {
          case "start" -> 0.97;
          case "end" -> 0.85;
          case "retention" -> 0.3;
          default -> 0.6;
        };
    // What is missing is missing as a whole, as a visit that was not kept.
    String[][] scores = {
      {"month", "'2020-01'"},
      {
        "overjet",
        start
            ? "(60 + " + whole(salt + 1, 60) + ") / 10.0"
            : "(10 + " + whole(salt + 1, 40) + ") / 10.0"
      },
      {"overbite", "(20 + " + whole(salt + 2, 40) + ") / 10.0"},
      {"par_ua", whole(salt + 3, start ? 8 : 2)},
      {"par_la", whole(salt + 4, start ? 6 : 2)},
      {"par_br", whole(salt + 5, start ? 3 : 1)},
      {"par_bl", whole(salt + 6, start ? 3 : 1)},
      {"par_oj", start ? "1 + " + whole(salt + 7, 3) : whole(salt + 7, 1)},
      {"par_ob", whole(salt + 8, start ? 3 : 1)},
      {"par_cl", start ? whole(salt + 9, 2) : "0"},
      {
        "dhc",
        "(CASE WHEN "
            + draw(salt + 10)
            + " < 0.5 THEN '"
            + (start ? "4a" : "2a")
            + "' ELSE '"
            + (start ? "5a" : "3a")
            + "' END)"
      },
      {"icon_ae", "1 + " + whole(salt + 11, start ? 9 : 3)},
      {"icon_cs", whole(salt + 12, start ? 4 : 1)},
      {"icon_cb", whole(salt + 13, start ? 1 : 0)},
      {"icon_v", whole(salt + 14, start ? 3 : 1)},
      {"icon_br", whole(salt + 15, start ? 2 : 1)},
      {"icon_bl", whole(salt + 16, start ? 2 : 1)},
      {"aesthetic", "1 + " + whole(salt + 17, start ? 9 : 3)},
    };
    for (String[] score : scores) {
      sql.append(", " + some(salt, share, score[1]) + " AS " + phase + "_" + score[0]);
    }
  }
}
