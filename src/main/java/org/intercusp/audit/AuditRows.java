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
import org.intercusp.finding.ShortText;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements of the trail, for H2 and PostgreSQL alike: they add and read, nothing else. */
final class AuditRows {

  /** Width of the columns. */
  private static final int LONGEST = 200;

  /** As long as the query of a request that comes with an address may be (Tomcat's 8 kB). */
  private static final int QUERY = 8192;

  private static final int ADDRESS = 45;

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
                + " recipient, request, detail, query, network) values (:id, :at, :deed, :outcome, :agent,"
                + " :name, :kind, :type, :system, :clinic, :thing, :version, :recipient, :request,"
                + " :detail, :query, :network)")
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
        .param("query", one.query() == null ? null : bounded(one.query(), QUERY))
        .param("network", one.network() == null ? null : bounded(one.network(), ADDRESS))
        .update();
  }

  List<AuditRecord> newest(AuditConditions where, int length) {
    return jdbc.sql(
            "select a.* from audit_event a where "
                + where.text()
                + " order by a.recorded_at desc, a.id desc fetch first :length rows only")
        .params(where.with("length", length).params())
        .query(AuditRows::record)
        .list();
  }

  long count(AuditConditions where) {
    return jdbc.sql("select count(*) from audit_event a where " + where.text())
        .params(where.params())
        .query(Long.class)
        .single();
  }

  Optional<AuditRecord> find(Condition reach, String id) {
    return jdbc.sql("select a.* from audit_event a where a.id = :id and " + reach.sql())
        .params(reach.params())
        .param("id", id)
        .query(AuditRows::record)
        .optional();
  }

  /** The first record of what was done with something. */
  Optional<AuditRecord> first(String type, String id) {
    return jdbc.sql(
            "select a.* from audit_event a where a.thing_type = :type and a.thing_id = :id"
                + " order by a.recorded_at, a.id fetch first 1 rows only")
        .param("type", type)
        .param("id", id)
        .query(AuditRows::record)
        .optional();
  }

  private static String bounded(String text) {
    return bounded(text, LONGEST);
  }

  private static String bounded(String text, int longest) {
    return ShortText.cut(text, longest);
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
        row.getString("detail"),
        row.getString("query"),
        row.getString("network"));
  }
}
