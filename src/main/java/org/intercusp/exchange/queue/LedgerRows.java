package org.intercusp.exchange.queue;

import java.util.List;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.intercusp.archive.KeyColumns;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.records.Ledger;
import org.intercusp.exchange.records.Ledger.Deletion;
import org.intercusp.exchange.records.Ledger.Holder;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements about what each recipient was given. */
public final class LedgerRows {

  private final JdbcClient jdbc;

  public LedgerRows(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  /** None where nothing was delivered from here yet: the server may still hold something. */
  public Ledger read(String recipient, TreatmentKey key) {
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
                        row.getBoolean("withdrawn"),
                        Ledger.Deletion.of(row.getString("deletion"))))
            .list();
    return lines.isEmpty() ? Ledger.NONE : Ledger.of(lines).about(holder(recipient, key));
  }

  /** The Patient that a treatment was delivered for; absent before that was written down. */
  public @Nullable Holder holder(String recipient, TreatmentKey key) {
    return of("select * from delivered_patient", recipient, key)
        .query(
            (row, number) ->
                new Holder(
                    row.getString("identifier_system"),
                    row.getString("identifier_value"),
                    row.getString("server_id"),
                    Stream.of(row.getString("merged").split(" ", -1))
                        .filter(id -> !id.isEmpty())
                        .toList(),
                    row.getString("other_system"),
                    row.getString("other_value")))
        .optional()
        .orElse(null);
  }

  /** Writes down the Patient that a treatment was delivered for. */
  public void write(String recipient, TreatmentKey key, Holder holder) {
    of("delete from delivered_patient", recipient, key).update();
    bound(
            key,
            "insert into delivered_patient (recipient, clinic_system, clinic_value, treatment_id,"
                + " identifier_system, identifier_value, server_id, merged, other_system,"
                + " other_value) values (:to, :system, :clinic, :treatment, :space, :value, :id,"
                + " :merged, :otherSystem, :otherValue)")
        .param("to", recipient)
        .param("space", holder.system())
        .param("value", holder.value())
        .param("id", holder.id())
        .param("merged", String.join(" ", holder.merged()))
        .param("otherSystem", holder.otherSystem())
        .param("otherValue", holder.otherValue())
        .update();
  }

  /**
   * Takes what a recipient was seen to hold as what it was left with.
   *
   * @param left what it had been left with when that was seen: what was delivered since stays;
   *     absent where that is not known
   */
  public void stored(
      String recipient, TreatmentKey key, Ledger.Name name, String digest, @Nullable String left) {
    JdbcClient.StatementSpec update =
        of(
                "update delivered_resource set stored = :digest",
                recipient,
                key,
                " and resource_type = :type and identifier_system = :space and identifier_value ="
                    + " :value"
                    + (left == null ? "" : " and stored = :left"))
            .param("digest", digest)
            .param("type", name.type())
            .param("space", name.system())
            .param("value", name.value());
    (left == null ? update : update.param("left", left)).update();
  }

  /**
   * Writes down what is to become of a resource that the recipient's people deleted.
   *
   * @param left digest of what it had been left with before: where a delivery wrote it since, the
   *     decision was on something else
   */
  public void deleted(
      String recipient, TreatmentKey key, Ledger.Name name, @Nullable String left, Deletion what) {
    of(
            "update delivered_resource set deletion = :deletion",
            recipient,
            key,
            " and resource_type = :type and identifier_system = :space and identifier_value ="
                + " :value and stored = :left")
        .param("deletion", what.code())
        .param("type", name.type())
        .param("space", name.system())
        .param("value", name.value())
        .param("left", left)
        .update();
  }

  /** Whether the recipient was given something of the treatment. */
  boolean holds(String recipient, TreatmentKey key) {
    return of("select count(*) from delivered_resource", recipient, key).query(Long.class).single()
        > 0;
  }

  /** Whether something of it is on its way or waits to go, so that it may be held at any moment. */
  boolean awaits(String recipient, TreatmentKey key) {
    String open = " and state in ('queued', 'under-way', 'waiting')";
    return of("select count(*) from delivery", recipient, key, open).query(Long.class).single() > 0;
  }

  /** Writes down all that the recipient was given of the treatment, in place of what was there. */
  public void write(String recipient, TreatmentKey key, Ledger ledger) {
    of("delete from delivered_resource", recipient, key).update();
    Holder holder = ledger.patient();
    if (holder != null) {
      write(recipient, key, holder);
    }
    for (Ledger.Line line : ledger.lines()) {
      bound(
              key,
              "insert into delivered_resource (recipient, clinic_system, clinic_value,"
                  + " treatment_id, resource_type, search_parameter, identifier_system,"
                  + " identifier_value, server_id, sent, stored, withdrawn, deletion) values (:to,"
                  + " :system, :clinic, :treatment, :type, :parameter, :space, :value, :id, :sent,"
                  + " :stored, :withdrawn, :deletion)")
          .param("to", recipient)
          .param("type", line.type())
          .param("parameter", line.parameter())
          .param("space", line.system())
          .param("value", line.value())
          .param("id", line.id())
          .param("sent", line.sent())
          .param("stored", line.stored())
          .param("withdrawn", line.withdrawn())
          .param("deletion", line.deletion().code())
          .update();
    }
  }

  private JdbcClient.StatementSpec of(String what, String recipient, TreatmentKey key) {
    return of(what, recipient, key, "");
  }

  private JdbcClient.StatementSpec of(
      String what, String recipient, TreatmentKey key, String more) {
    return bound(key, what + " where recipient = :to and " + KeyColumns.ARE_GIVEN + more)
        .param("to", recipient);
  }

  private JdbcClient.StatementSpec bound(TreatmentKey key, String sql) {
    return KeyColumns.bind(jdbc.sql(sql), key);
  }
}
