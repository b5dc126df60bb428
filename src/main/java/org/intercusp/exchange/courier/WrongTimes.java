package org.intercusp.exchange.courier;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import javax.sql.DataSource;
import org.intercusp.exchange.queue.DatabaseTime;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Puts right what was written while a clock was ahead: a delivery that was touched in the future,
 * or taken over by an instance that lives there, would wait until then, and work would belong to an
 * instance that is no more.
 */
final class WrongTimes {

  /** Clocks of several instances differ by so much at most; common practice, no source. */
  private static final Duration SKEW = Duration.ofSeconds(30);

  private final JdbcClient jdbc;
  private final Duration lease;
  private final Clock clock;

  WrongTimes(DataSource database, Duration lease, Clock clock) {
    this.jdbc = JdbcClient.create(database);
    this.lease = lease;
    this.clock = clock;
  }

  void putRight() {
    Instant now = clock.instant();
    OffsetDateTime present = now.atOffset(ZoneOffset.UTC);
    OffsetDateTime future = now.plus(SKEW).atOffset(ZoneOffset.UTC);
    jdbc.sql(
            "update scheduled_tasks set execution_time = :now, version = version + 1"
                + " where picked = false and execution_time > :future and task_instance in"
                + " (select d.id from delivery d where d.changed_at > :future"
                + " or d.due_at is null or d.due_at <= :now)")
        .param("now", present)
        .param("future", future)
        .update();
    jdbc.sql(
            "update scheduled_tasks set last_heartbeat = :now"
                + " where picked = true and last_heartbeat > :future")
        .param("now", present)
        .param("future", future)
        .update();
    Instant databases = DatabaseTime.now(jdbc);
    // Who still works renews the lease from the time that it is now.
    jdbc.sql("update delivery_lane set until = :end where until > :later")
        .param("end", databases.plus(lease).atOffset(ZoneOffset.UTC))
        .param("later", databases.plus(lease).plus(SKEW).atOffset(ZoneOffset.UTC))
        .update();
  }
}
