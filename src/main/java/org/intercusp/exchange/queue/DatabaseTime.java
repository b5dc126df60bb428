package org.intercusp.exchange.queue;

import java.time.Instant;
import java.time.OffsetDateTime;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The time on the database's clock, the one clock that all instances share. */
public final class DatabaseTime {

  private DatabaseTime() {}

  /** What time it is there. */
  public static Instant now(JdbcClient jdbc) {
    return jdbc.sql("select current_timestamp")
        .query((row, number) -> row.getObject(1, OffsetDateTime.class))
        .single()
        .toInstant();
  }
}
