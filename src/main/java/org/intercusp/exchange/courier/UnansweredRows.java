package org.intercusp.exchange.courier;

import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import javax.sql.DataSource;
import org.intercusp.archive.KeyColumns;
import org.intercusp.exchange.queue.DatabaseTime;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.Notice;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * The statements about writes that went out and of which nobody has heard yet. The time is the
 * database's, as with the leases.
 */
final class UnansweredRows {

  private static final String SINCE =
      "select t.delivery_id, t.unanswered_since, t.unanswered_conditional from delivery_attempt t"
          + " join delivery d on d.id = t.delivery_id where t.unanswered_since > :from and ";

  private static final String SAME_TREATMENT_AND_RECIPIENT =
      KeyColumns.areGiven("d") + " and d.recipient = :to";

  private final JdbcClient jdbc;

  UnansweredRows(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  /**
   * What is known of the writes to a recipient about a patient or a treatment that may still be
   * carried out.
   *
   * @param repeatable whether all of them are this delivery's and were sent on condition
   */
  record Open(Duration left, boolean repeatable) {}

  /** A write. */
  private record Write(Instant at, boolean own, boolean conditional) {}

  /**
   * Notes that a write is about to go out; false when the lane is no longer held under the lease's
   * fence or a newer version was begun in another lane after that, and then nothing may go out.
   *
   * @param shared whether it may create people or organisations that other patients have too
   * @param conditional whether all that it creates is created on the condition that it is absent
   */
  boolean begin(Delivery delivery, Leases.Lease lease, boolean shared, boolean conditional) {
    return of(
                delivery,
                "update delivery_attempt set unanswered_since = current_timestamp,"
                    + " unanswered_shared = :shared, unanswered_conditional = "
                    + (conditional
                        ? "(unanswered_since is null or unanswered_conditional)"
                        : "false")
                    + " where delivery_id = :id and number = :number"
                    + " and exists (select 1 from delivery_lane l where l.recipient = :to"
                    + " and l.patient = :patient and l.fence = :fence and l.holder is not null)"
                    + " and not exists (select 1 from delivery d where "
                    + SAME_TREATMENT_AND_RECIPIENT
                    + " and d.version > :version and d.attempts > 0)")
            .param("version", delivery.version())
            .param("shared", shared)
            .param("id", delivery.id())
            .param("number", delivery.attempts() + 1)
            .param("patient", lease.patient())
            .param("fence", lease.fence())
            .update()
        == 1;
  }

  /** Notes that all writes of an attempt were answered. */
  void end(Delivery delivery) {
    jdbc.sql(
            "update delivery_attempt set unanswered_since = null"
                + " where delivery_id = :id and number = :number")
        .param("id", delivery.id())
        .param("number", delivery.attempts() + 1)
        .update();
  }

  /**
   * How long until the writes about this patient and this treatment, whose earlier versions may
   * name the patient by another number, are settled; this attempt's own left out.
   */
  Open open(Delivery delivery, String patient, Duration settling) {
    Instant now = DatabaseTime.now(jdbc);
    Instant last = now.minus(settling);
    boolean repeatable = true;
    for (Write one : since(delivery, patient, last)) {
      last = one.at().isAfter(last) ? one.at() : last;
      repeatable &= one.own() && one.conditional();
    }
    return new Open(Duration.between(now, last.plus(settling)), repeatable);
  }

  private List<Write> since(Delivery delivery, String patient, Instant from) {
    // Two selects, since one with "or" would use no index.
    return of(
            delivery,
            SINCE
                + "d.recipient = :to and d.patient = :patient union all "
                + SINCE
                + "d.patient <> :patient and "
                + SAME_TREATMENT_AND_RECIPIENT)
        .param("patient", patient)
        .param("from", from.atOffset(ZoneOffset.UTC))
        .query(
            (row, number) ->
                new Write(
                    row.getObject("unanswered_since", OffsetDateTime.class).toInstant(),
                    row.getString("delivery_id").equals(delivery.id()),
                    row.getBoolean("unanswered_conditional")))
        .list();
  }

  /**
   * Whether people or organisations sent to a recipient in another delivery may still be stored.
   */
  boolean isSharedOpen(Delivery delivery, Duration settling) {
    return jdbc.sql(
                "select count(*) from delivery_attempt t join delivery d on d.id = t.delivery_id"
                    + " where d.recipient = :to and t.delivery_id <> :id and t.unanswered_shared"
                    + " and t.unanswered_since > :from")
            .param("to", delivery.recipient())
            .param("id", delivery.id())
            .param("from", DatabaseTime.now(jdbc).minus(settling).atOffset(ZoneOffset.UTC))
            .query(Long.class)
            .single()
        > 0;
  }

  /**
   * The versions of the treatment that were tried since the last one delivered: of each the
   * recipient may hold some or all.
   */
  List<Integer> perhapsHeld(Delivery delivery) {
    return of(
            delivery,
            "select distinct d.version from delivery d join delivery_attempt t"
                + " on t.delivery_id = d.id where "
                + SAME_TREATMENT_AND_RECIPIENT
                + " and d.version < :version and d.state <> 'delivered' and d.version >"
                + " (select coalesce(max(d.version), 0) from delivery d where "
                + SAME_TREATMENT_AND_RECIPIENT
                + " and d.state = 'delivered' and d.reason <> :told) order by d.version desc")
        .param("told", Notice.TOLD)
        .param("version", delivery.version())
        .query(Integer.class)
        .list();
  }

  private JdbcClient.StatementSpec of(Delivery delivery, String sql) {
    return KeyColumns.bind(jdbc.sql(sql), delivery.treatment()).param("to", delivery.recipient());
  }
}
