package org.intercusp.exchange.proposal;

import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import javax.sql.DataSource;
import org.intercusp.access.Condition;
import org.intercusp.access.CurrentCaller;
import org.intercusp.archive.KeyColumns;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.queue.Notice;
import org.intercusp.finding.ShortText;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements about which treatments a recipient was given, and up to when it was asked. */
final class PollRows {

  /** Width of the column. */
  private static final int LONGEST = 2_000;

  private final JdbcClient jdbc;
  private final CurrentCaller callers;

  PollRows(DataSource database, CurrentCaller callers) {
    this.jdbc = JdbcClient.create(database);
    this.callers = callers;
  }

  /**
   * A treatment that a recipient has.
   *
   * @param version the one delivered last
   * @param patient the lane of its patient
   */
  record Delivered(TreatmentKey key, int version, String patient) {}

  /** By the patient's lane. */
  Map<String, List<Delivered>> delivered(String recipient) {
    Map<String, List<Delivered>> byPatient = new LinkedHashMap<>();
    delivered(recipient, "%")
        .forEach(one -> byPatient.computeIfAbsent(one.patient(), k -> new ArrayList<>()).add(one));
    return byPatient;
  }

  /**
   * Those of some patients.
   *
   * @param patient a patient's lane, which is a digest, or a percent sign for all
   */
  List<Delivered> delivered(String recipient, String patient) {
    Condition reach = callers.condition("d");
    return jdbc.sql(
            "select d.clinic_system, d.clinic_value, d.treatment_id, d.version, d.patient"
                + " from delivery d where "
                + reach.sql()
                + " and d.recipient = :to and d.patient like :patient"
                // A notice brought nothing of its version but the consent.
                + " and d.state = 'delivered' and d.reason <> :told and not exists (select 1"
                + " from delivery n where n.clinic_system = d.clinic_system and n.clinic_value"
                + " = d.clinic_value and n.treatment_id = d.treatment_id and n.recipient ="
                + " d.recipient and n.state = 'delivered' and n.reason <> :told and n.version > d.version)"
                + " order by d.patient, d.treatment_id")
        .params(reach.params())
        .param("to", recipient)
        .param("told", Notice.TOLD)
        .param("patient", patient)
        .query(
            (row, number) ->
                new Delivered(
                    KeyColumns.read(row), row.getInt("version"), row.getString("patient")))
        .list();
  }

  /** Versions after one that the recipient may hold something of, whatever became of them. */
  Set<Integer> tried(String recipient, Delivered one) {
    Condition reach = callers.condition("d");
    return new TreeSet<>(
        KeyColumns.bind(
                jdbc.sql(
                    "select d.version from delivery d where "
                        + reach.sql()
                        + " and "
                        + KeyColumns.areGiven("d")
                        + " and d.recipient = :to and d.version > :version and d.attempts > 0"),
                one.key())
            .params(reach.params())
            .param("to", recipient)
            .param("version", one.version())
            .query(Integer.class)
            .list());
  }

  /** Up to when the recipient was asked, on its own clock. */
  Optional<Instant> asked(String recipient) {
    return jdbc.sql("select server_time from recipient_poll where recipient = :to")
        .param("to", recipient)
        .query((row, number) -> Optional.ofNullable(row.getObject(1, OffsetDateTime.class)))
        .optional()
        .flatMap(time -> time)
        .map(OffsetDateTime::toInstant);
  }

  /** The lane of the patient whom the rounds came to last; empty where there was none. */
  String round(String recipient) {
    return jdbc.sql("select round_at from recipient_poll where recipient = :to")
        .param("to", recipient)
        .query(String.class)
        .optional()
        .orElse("");
  }

  /** Writes down the patient whom the rounds come to; before the first poll is over, nothing. */
  void round(String recipient, String patient) {
    jdbc.sql("update recipient_poll set round_at = :patient where recipient = :to")
        .param("patient", patient)
        .param("to", recipient)
        .update();
  }

  /**
   * Writes down that it was asked.
   *
   * @param serverTime absent where the next question has to go as far back as this one
   */
  void asked(String recipient, @Nullable Instant serverTime, Instant now, String trouble) {
    String time = serverTime == null ? "" : ", server_time = :time";
    int there =
        bound(
                "update recipient_poll set asked_at = :now, trouble = :trouble"
                    + time
                    + " where recipient = :to",
                recipient,
                serverTime,
                now,
                trouble)
            .update();
    if (there == 0) {
      bound(
              "insert into recipient_poll (recipient, server_time, asked_at, trouble) values (:to,"
                  + " :time, :now, :trouble)",
              recipient,
              serverTime,
              now,
              trouble)
          .update();
    }
  }

  private JdbcClient.StatementSpec bound(
      String sql, String recipient, @Nullable Instant time, Instant now, String trouble) {
    JdbcClient.StatementSpec spec =
        jdbc.sql(sql)
            .param("to", recipient)
            .param("now", now.atOffset(ZoneOffset.UTC))
            .param("trouble", ShortText.cut(trouble, LONGEST));
    return sql.contains(":time")
        ? spec.param(
            "time",
            time == null ? null : time.atOffset(ZoneOffset.UTC),
            java.sql.Types.TIMESTAMP_WITH_TIMEZONE)
        : spec;
  }
}
