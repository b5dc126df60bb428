package org.intercusp.audit;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import javax.sql.DataSource;
import org.intercusp.access.Clinic;
import org.intercusp.access.Condition;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements of the trail, for H2 and PostgreSQL alike: they add and read, nothing else. */
final class AuditRows {

  private static final int LONGEST = 200;

  private final JdbcClient jdbc;

  AuditRows(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  void add(AuditRecord one) {
    Thing thing = one.thing();
    Clinic clinic = thing.clinic();
    jdbc.sql(
            "insert into audit_event (id, recorded_at, deed, outcome, agent, agent_name,"
                + " agent_kind, thing_type, clinic_system, clinic_value, thing_id, version,"
                + " recipient, request, detail) values (:id, :at, :deed, :outcome, :agent, :name,"
                + " :kind, :type, :system, :clinic, :thing, :version, :recipient, :request,"
                + " :detail)")
        .param("id", one.id())
        .param("at", one.recordedAt().atOffset(ZoneOffset.UTC))
        .param("deed", one.deed().code())
        .param("outcome", one.outcome().code())
        .param("agent", bounded(one.agent()))
        .param("name", bounded(one.agentName()))
        .param("kind", one.agentKind())
        .param("type", bounded(thing.type()))
        .param("system", clinic == null ? null : clinic.system())
        .param("clinic", clinic == null ? null : clinic.value())
        .param("thing", thing.id() == null ? null : bounded(thing.id()))
        .param("version", thing.version())
        .param("recipient", thing.recipient())
        .param("request", bounded(one.request()))
        .param("detail", bounded(one.detail()))
        .update();
  }

  List<AuditRecord> newest(Condition reach, @Nullable AuditRecord after, int length) {
    String behind = after == null ? "" : " and (a.recorded_at, a.id) < (:at, :id)";
    JdbcClient.StatementSpec statement =
        jdbc.sql(
                "select a.* from audit_event a where "
                    + reach.sql()
                    + behind
                    + " order by a.recorded_at desc, a.id desc fetch first :length rows only")
            .params(reach.params())
            .param("length", length);
    if (after != null) {
      statement =
          statement
              .param("at", after.recordedAt().atOffset(ZoneOffset.UTC))
              .param("id", after.id());
    }
    return statement.query(AuditRows::record).list();
  }

  Optional<AuditRecord> find(Condition reach, String id) {
    return jdbc.sql("select a.* from audit_event a where a.id = :id and " + reach.sql())
        .params(reach.params())
        .param("id", id)
        .query(AuditRows::record)
        .optional();
  }

  private static String bounded(String text) {
    return text.length() <= LONGEST ? text : text.substring(0, LONGEST);
  }

  private static AuditRecord record(ResultSet row, int number) throws SQLException {
    String system = row.getString("clinic_system");
    Clinic clinic = system == null ? null : new Clinic(system, row.getString("clinic_value"));
    Object version = row.getObject("version");
    return new AuditRecord(
        row.getString("id"),
        row.getObject("recorded_at", OffsetDateTime.class).toInstant(),
        Deed.of(row.getString("deed")),
        Outcome.of(row.getString("outcome")),
        row.getString("agent"),
        row.getString("agent_name"),
        row.getString("agent_kind"),
        new Thing(
            row.getString("thing_type"),
            clinic,
            row.getString("thing_id"),
            version == null ? null : row.getInt("version"),
            row.getString("recipient")),
        row.getString("request"),
        row.getString("detail"));
  }
}
