package org.intercusp.exchange.courier;

import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import javax.sql.DataSource;
import org.intercusp.exchange.queue.WakeUps;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.support.JdbcTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Deliveries that have not come to their end and that nothing would wake. Every statement keeps
 * both together; this is for what an operator, a backup or an earlier program left behind.
 */
final class MissingWakeUps {

  private final JdbcClient jdbc;
  private final WakeUps wakeUps;
  private final TransactionTemplate transaction;
  private final Clock clock;

  MissingWakeUps(DataSource database, Clock clock) {
    this.jdbc = JdbcClient.create(database);
    this.wakeUps = new WakeUps(database);
    this.transaction = new TransactionTemplate(new JdbcTransactionManager(database));
    this.clock = clock;
  }

  /** Sets them for when each is due. How many. */
  int make() {
    List<Asleep> found =
        jdbc.sql(
                "select d.id, d.due_at from delivery d"
                    + " where d.state in ('queued', 'waiting', 'under-way') and not exists"
                    + " (select 1 from scheduled_tasks t"
                    + " where t.task_name = :task and t.task_instance = d.id)")
            .param("task", WakeUps.TASK)
            .query(
                (row, number) ->
                    new Asleep(row.getString("id"), row.getObject("due_at", OffsetDateTime.class)))
            .list();
    found.forEach(this::wake);
    return found.size();
  }

  private void wake(Asleep one) {
    OffsetDateTime due = one.due();
    Instant when = due == null ? clock.instant() : due.toInstant();
    transaction.executeWithoutResult(status -> wakeUps.set(one.id(), when));
  }

  private record Asleep(String id, @Nullable OffsetDateTime due) {}
}
