package org.intercusp.worklist;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import javax.sql.DataSource;
import org.intercusp.access.Condition;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.KeyColumns;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.finding.ShortText;
import org.springframework.jdbc.core.simple.JdbcClient;

/** Writes rows of the index and says which are to be made anew, for H2 and PostgreSQL alike. */
final class EntryRows {

  /** Widths of the columns. */
  private static final int LONGEST_SORT = 1_000;

  private static final int LONGEST_SEARCH = 4_000;

  private static final String OF_KEY = " " + KeyColumns.ARE_GIVEN;

  private static final String SET =
      "version = :version, received_at = :received, edition = :edition, judged_on = :judged,"
          + " day_bound = :bound, clinic_name = :clinicName, patient_name = :name,"
          + " patient_number = :number, sort_name = :sort, search = :search, status = :status,"
          + " stage = :stage, errors = :errors, urgent = :urgent, warnings = :warnings,"
          + " overjet_start = :start, overjet_now = :now, overjet_target = :target,"
          + " next_from = :nextFrom, next_by = :nextBy,"
          + " consent = :consent";

  private static final String INSERT =
      "insert into worklist (clinic_system, clinic_value, treatment_id, version, received_at,"
          + " edition, judged_on, day_bound, clinic_name, patient_name, patient_number, sort_name,"
          + " search, status, stage, errors, urgent, warnings, overjet_start, overjet_now,"
          + " overjet_target, next_from, next_by, consent) values (:system, :clinic, :treatment, :version,"
          + " :received, :edition, :judged, :bound, :clinicName, :name, :number, :sort, :search,"
          + " :status, :stage, :errors, :urgent, :warnings, :start, :now, :target, :nextFrom,"
          + " :nextBy, :consent)";

  private static final String STALE =
      " from treatment t left join worklist w on w.clinic_system = t.clinic_system"
          + " and w.clinic_value = t.clinic_value and w.treatment_id = t.treatment_id"
          + " where {reach} and t.newest > 0 and (w.treatment_id is null or w.version <> t.newest"
          + " or w.edition <> :edition or (w.day_bound and w.judged_on <> :today))";

  private final JdbcClient jdbc;
  private final CurrentCaller callers;

  EntryRows(DataSource database, CurrentCaller callers) {
    this.jdbc = JdbcClient.create(database);
    this.callers = callers;
  }

  void write(Entry entry, String edition) {
    callers.mustReach(entry.key().reached());
    int updated = of(entry, edition, "update worklist set " + SET + " where" + OF_KEY).update();
    if (updated == 0) {
      of(entry, edition, INSERT).update();
    }
  }

  private JdbcClient.StatementSpec of(Entry entry, String edition, String sql) {
    String sort = Folded.of(entry.patientName());
    String search =
        String.join(
            " ", sort, Folded.of(entry.patientNumber()), Folded.of(entry.key().treatment()));
    return key(sql, entry.key())
        .param("version", entry.version())
        .param("received", entry.receivedAt().atOffset(ZoneOffset.UTC))
        .param("edition", edition)
        .param("judged", entry.judgedOn())
        .param("bound", entry.dayBound())
        .param("clinicName", entry.clinicName())
        .param("name", entry.patientName())
        .param("number", entry.patientNumber())
        .param("sort", ShortText.cut(sort, LONGEST_SORT))
        .param("search", ShortText.cut(search, LONGEST_SEARCH))
        .param("status", entry.status())
        .param("stage", entry.stage())
        .param("errors", entry.errors())
        .param("urgent", entry.urgent())
        .param("warnings", entry.warnings())
        .param("start", entry.overjetStart())
        .param("now", entry.overjetNow())
        .param("target", entry.overjetTarget())
        .param("nextFrom", entry.nextFrom())
        .param("nextBy", entry.nextBy())
        .param("consent", entry.consent());
  }

  /** Holds the treatment's own row, so that whoever stores a version waits or is waited for. */
  boolean hold(TreatmentKey key) {
    return key("select newest from treatment where" + OF_KEY + " for update", key)
        .query(Integer.class)
        .optional()
        .isPresent();
  }

  /**
   * Treatments in the caller's reach without a row, or with one of another version, edition or day.
   */
  List<TreatmentKey> stale(String edition, LocalDate today, int length) {
    return stale(
            "select t.clinic_system, t.clinic_value, t.treatment_id"
                + STALE
                + " fetch first :length rows only",
            edition,
            today)
        .param("length", length)
        .query((row, number) -> KeyColumns.read(row))
        .list();
  }

  long countStale(String edition, LocalDate today) {
    return stale("select count(*)" + STALE, edition, today).query(Long.class).single();
  }

  private JdbcClient.StatementSpec stale(String sql, String edition, LocalDate today) {
    Condition reach = callers.condition("t");
    return jdbc.sql(sql.replace("{reach}", reach.sql()))
        .params(reach.params())
        .param("edition", edition)
        .param("today", today);
  }

  private JdbcClient.StatementSpec key(String sql, TreatmentKey key) {
    return KeyColumns.bind(jdbc.sql(sql), key);
  }

  static Entry entry(ResultSet row) throws SQLException {
    return new Entry(
        KeyColumns.read(row),
        row.getInt("version"),
        row.getObject("received_at", OffsetDateTime.class).toInstant(),
        row.getObject("judged_on", LocalDate.class),
        row.getBoolean("day_bound"),
        row.getString("clinic_name"),
        row.getString("patient_name"),
        row.getString("patient_number"),
        row.getString("status"),
        row.getString("stage"),
        row.getInt("errors"),
        row.getInt("urgent"),
        row.getInt("warnings"),
        row.getBigDecimal("overjet_start"),
        row.getBigDecimal("overjet_now"),
        row.getBigDecimal("overjet_target"),
        row.getObject("next_from", LocalDate.class),
        row.getObject("next_by", LocalDate.class),
        row.getString("consent"));
  }

  /** The row of a treatment. */
  Optional<Entry> find(TreatmentKey key) {
    Condition reach = callers.condition("worklist");
    return key("select * from worklist where " + reach.sql() + " and" + OF_KEY, key)
        .params(reach.params())
        .query((row, number) -> entry(row))
        .optional();
  }
}
