package org.intercusp.exchange.courier;

import javax.sql.DataSource;
import org.intercusp.archive.KeyColumns;
import org.intercusp.exchange.queue.Delivery;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * The statements about the other versions of a treatment that go to the same recipient. Lanes go by
 * the patient's number, so that a version which corrects that number has a lane of its own: without
 * a look at the others it would be under way beside them, and the older one might write last.
 */
final class OtherVersions {

  private static final String OF_KEY = " " + KeyColumns.areGiven("d");

  private final JdbcClient jdbc;

  OtherVersions(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  /**
   * Whether one is under way, begun by whoever still holds its lane. Takes part in the caller's
   * transaction, in which nobody else begins a version of this treatment from now on.
   */
  boolean isUnderWay(Delivery delivery) {
    of(delivery, "select d.newest from treatment d where" + OF_KEY + " for update")
        .query(Integer.class)
        .optional();
    return of(
                delivery,
                "select count(*) from delivery d join delivery_lane l"
                    + " on l.recipient = d.recipient and l.patient = d.patient where"
                    + OF_KEY
                    + " and d.recipient = :to and d.id <> :id and d.state = 'under-way'"
                    + " and l.fence = d.fence and l.holder is not null"
                    + " and l.until > current_timestamp")
            .param("to", delivery.recipient())
            .param("id", delivery.id())
            .query(Long.class)
            .single()
        > 0;
  }

  private JdbcClient.StatementSpec of(Delivery delivery, String sql) {
    return KeyColumns.bind(jdbc.sql(sql), delivery.treatment());
  }
}
