package org.intercusp.exchange;

import java.util.List;
import javax.sql.DataSource;
import org.intercusp.archive.TreatmentKey;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements about what each recipient was given. */
final class LedgerRows {

  private final JdbcClient jdbc;

  LedgerRows(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  /** None where nothing was delivered from here yet: the server may still hold something. */
  Ledger read(String recipient, TreatmentKey key) {
    List<Ledger.Line> lines =
        of("select * from delivered_resource", recipient, key)
            .query(
                (row, number) ->
                    new Ledger.Line(
                        row.getString("resource_type"),
                        row.getString("search_parameter"),
                        row.getString("identifier_system"),
                        row.getString("identifier_value"),
                        row.getString("server_id"),
                        row.getString("sent"),
                        row.getString("stored"),
                        row.getBoolean("withdrawn")))
            .list();
    return lines.isEmpty() ? Ledger.NONE : Ledger.of(lines);
  }

  /** Whether the recipient was given something of the treatment. */
  boolean holds(String recipient, TreatmentKey key) {
    return of("select count(*) from delivered_resource", recipient, key).query(Long.class).single()
        > 0;
  }

  void write(String recipient, TreatmentKey key, Ledger ledger) {
    of("delete from delivered_resource", recipient, key).update();
    for (Ledger.Line line : ledger.lines()) {
      jdbc.sql(
              "insert into delivered_resource (recipient, clinic_system, clinic_value,"
                  + " treatment_id, resource_type, search_parameter, identifier_system,"
                  + " identifier_value, server_id, sent, stored, withdrawn) values (:to, :system,"
                  + " :clinic, :treatment, :type, :parameter, :space, :value, :id, :sent, :stored,"
                  + " :withdrawn)")
          .param("to", recipient)
          .param("system", key.clinic().system())
          .param("clinic", key.clinic().value())
          .param("treatment", key.treatment())
          .param("type", line.type())
          .param("parameter", line.parameter())
          .param("space", line.system())
          .param("value", line.value())
          .param("id", line.id())
          .param("sent", line.sent())
          .param("stored", line.stored())
          .param("withdrawn", line.withdrawn())
          .update();
    }
  }

  private JdbcClient.StatementSpec of(String what, String recipient, TreatmentKey key) {
    return jdbc.sql(
            what
                + " where recipient = :to and clinic_system = :system and clinic_value = :clinic"
                + " and treatment_id = :treatment")
        .param("to", recipient)
        .param("system", key.clinic().system())
        .param("clinic", key.clinic().value())
        .param("treatment", key.treatment());
  }
}
