package org.intercusp.registry.store;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.intercusp.treatment.HarmEvent;
import org.intercusp.treatment.Outcome.Phase;

/**
 * The columns of the Parquet files, in their order, with the data dictionary: lengths in
 * millimetres, wear in hours a day, stages in days, PAR and ICON components unweighted.
 */
public final class CaseColumns {

  /**
   * One column.
   *
   * @param type SQL type
   * @param meaning for people who read the exported data
   */
  public record Column(String name, String type, String meaning) {}

  private static final String TEXT = "VARCHAR";
  private static final String WHOLE = "INTEGER";
  private static final String DECIMAL = "DOUBLE";

  public static final List<Column> ALL = all();

  private CaseColumns() {}

  /** How a phase begins its columns' names. */
  static String prefix(Phase phase) {
    return phase == Phase.RETENTION_12_MONTHS ? "retention" : phase.code().replace('-', '_');
  }

  static String harm(HarmEvent.Code code) {
    return "ae_" + code.code().replace('-', '_');
  }

  /** The columns as SQL declares them. */
  static String declared() {
    return ALL.stream()
        .map(column -> column.name() + " " + column.type())
        .collect(Collectors.joining(", "));
  }

  private static List<Column> all() {
    List<Column> all = new ArrayList<>();
    add(all, "submitter", TEXT, "who submitted it, system|value");
    add(all, "submission", TEXT, "keyed hash of submitter and submission id");
    add(all, "sequence", "BIGINT", "grows with each acceptance; the highest wins");
    add(all, "received_month", TEXT, "month it was accepted in");
    add(all, "person", TEXT, "keyed hash of the patient's identifier");
    add(all, "key_id", TEXT, "the last key laid on the hashes");
    add(all, "clinic", TEXT, "the clinic, system|value");
    add(all, "treatment", TEXT, "keyed hash of clinic and treatment id");
    add(all, "sex", TEXT, "as recorded by the clinic");
    add(all, "age_months", WHOLE, "at the first active fitting");
    add(all, "growth_stage", TEXT, "CS1 to CS6");
    add(all, "appliance", TEXT, "type of the first active appliance");
    add(all, "first_fitted_month", TEXT, "month of the first active fitting");
    add(all, "start_year", WHOLE, "year of the first active fitting");
    add(
        all,
        "status",
        TEXT,
        "where the treatment stands; unknown where nobody knows whether it ended");
    add(all, "reason", TEXT, "why it was given up");
    add(all, "treatment_days", WHOLE, "first active fitting to completion or decision");
    add(all, "last_attended_days", WHOLE, "first active fitting to the last attendance");
    add(all, "active_days", WHOLE, "length of the active stage");
    add(all, "support_days", WHOLE, "length of the support stage");
    add(all, "fixed_days", WHOLE, "length of the fixed stage");
    add(all, "retention_days", WHOLE, "length of the retention stage so far");
    add(all, "reviews", WHOLE, "visits");
    add(all, "wear_reported", DECIMAL, "mean reported wear, h/d");
    add(all, "wear_measured", DECIMAL, "mean measured wear, h/d");
    add(all, "breakages", WHOLE, "how often an appliance broke");
    for (HarmEvent.Code code : HarmEvent.Code.values()) {
      add(all, harm(code), WHOLE, "adverse events: " + code.code());
    }
    add(all, "ae_serious", WHOLE, "how many of the adverse events were serious");
    for (Phase phase : Phase.values()) {
      phase(all, prefix(phase), phase.code());
    }
    add(all, "second_par_uk_first", WHOLE, "UK PAR of a case scored twice, first scoring");
    add(all, "second_par_uk_again", WHOLE, "UK PAR of a case scored twice, second scoring");
    add(all, "second_phase", TEXT, "phase that was scored twice");
    add(all, "revision", WHOLE, "revision of the submission, counted from 1");
    add(all, "content", TEXT, "keyed hash of the whole record, to tell the same again");
    return List.copyOf(all);
  }

  private static void phase(List<Column> all, String at, String phase) {
    add(all, at + "_month", TEXT, "month of the assessment at " + phase);
    add(all, at + "_overjet", DECIMAL, "overjet in mm at " + phase);
    add(all, at + "_overbite", DECIMAL, "overbite in mm at " + phase);
    for (String part : List.of("ua", "la", "br", "bl", "oj", "ob", "cl")) {
      add(all, at + "_par_" + part, WHOLE, parPart(part) + " of PAR, unweighted, at " + phase);
    }
    add(all, at + "_dhc", TEXT, "dental health component at " + phase);
    for (String part : List.of("ae", "cs", "cb", "v", "br", "bl")) {
      String meaning = "ICON component " + part.toUpperCase(Locale.ROOT) + " at " + phase;
      add(all, at + "_icon_" + part, WHOLE, meaning);
    }
    add(all, at + "_aesthetic", WHOLE, "aesthetic component at " + phase);
  }

  private static String parPart(String part) {
    return switch (part) {
      case "ua" -> "upper anterior";
      case "la" -> "lower anterior";
      case "br" -> "buccal right";
      case "bl" -> "buccal left";
      case "oj" -> "overjet";
      case "ob" -> "overbite";
      default -> "centreline";
    };
  }

  private static void add(List<Column> all, String name, String type, String meaning) {
    all.add(new Column(name, type, meaning));
  }
}
