package org.intercusp.exchange.queue;

import java.time.Duration;
import java.util.OptionalLong;
import javax.sql.DataSource;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * The leases: one worker at a time for a patient and a recipient, over all instances. The time is
 * the database's, so that instances with different clocks agree.
 */
public final class Lanes {

  private final JdbcClient jdbc;

  public Lanes(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  /** Makes sure that there is a lane to lease; in a transaction of its own. */
  public void open(String recipient, String patient) {
    Long there =
        lane(
                "select count(*) from delivery_lane where recipient = :to and patient = :patient",
                recipient,
                patient)
            .query(Long.class)
            .single();
    if (there > 0) {
      return;
    }
    try {
      lane(
              "insert into delivery_lane (recipient, patient, holder, fence, until)"
                  + " values (:to, :patient, null, 0, current_timestamp)",
              recipient,
              patient)
          .update();
    } catch (DuplicateKeyException e) {
      // Another instance was first: the lane is there, which is all that is wanted.
      return;
    }
  }

  /** Takes the lane, if it is free or its lease ran out; the fence to show from now on. */
  public OptionalLong take(String recipient, String patient, String holder, Duration lease) {
    int taken =
        lane(
                "update delivery_lane set holder = :holder, fence = fence + 1, until = :until"
                    + " where recipient = :to and patient = :patient"
                    + " and (holder is null or until < current_timestamp)",
                recipient,
                patient)
            .param("holder", holder)
            .param("until", DeliveryRows.at(DatabaseTime.now(jdbc).plus(lease)))
            .update();
    if (taken == 0) {
      return OptionalLong.empty();
    }
    return OptionalLong.of(
        lane(
                "select fence from delivery_lane where recipient = :to and patient = :patient",
                recipient,
                patient)
            .query(Long.class)
            .single());
  }

  /** Gives a sign of life; false when the lane went to somebody else. */
  public boolean renew(String recipient, String patient, long fence, Duration lease) {
    return lane(
                "update delivery_lane set until = :until where recipient = :to"
                    + " and patient = :patient and fence = :fence and holder is not null",
                recipient,
                patient)
            .param("until", DeliveryRows.at(DatabaseTime.now(jdbc).plus(lease)))
            .param("fence", fence)
            .update()
        == 1;
  }

  /** Gives the lane back, unless somebody else has it by now. */
  public void release(String recipient, String patient, long fence) {
    lane(
            "update delivery_lane set holder = null where recipient = :to and patient = :patient"
                + " and fence = :fence",
            recipient,
            patient)
        .param("fence", fence)
        .update();
  }

  /** Frees all: for a database that no other instance can have open. */
  public void releaseAll() {
    jdbc.sql("update delivery_lane set holder = null where holder is not null").update();
  }

  private JdbcClient.StatementSpec lane(String sql, String recipient, String patient) {
    return jdbc.sql(sql).param("to", recipient).param("patient", patient);
  }
}
