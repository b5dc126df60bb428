package org.intercusp.exchange.courier;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.HashMap;
import java.util.Map;
import javax.sql.DataSource;
import org.springframework.jdbc.core.simple.JdbcClient;

/** What has not come to its end yet, by recipient. Numbers only, over all clinics. */
final class Backlog {

  /** One look serves all the meters of one reading; common practice, no source. */
  private static final Duration FRESH = Duration.ofMillis(500);

  /**
   * Of one recipient.
   *
   * @param oldest how long the oldest is to go already: since it was asked for, or since the day it
   *     was kept for; zero where there is none
   */
  record Share(long count, Duration oldest) {}

  private static final Share NOTHING = new Share(0, Duration.ZERO);

  private final JdbcClient jdbc;
  private final Clock clock;
  private Map<String, Share> shares = Map.of();
  private long lookedAt = Long.MIN_VALUE;

  Backlog(DataSource database, Clock clock) {
    this.jdbc = JdbcClient.create(database);
    this.clock = clock;
  }

  synchronized Share of(String recipient) {
    long now = System.nanoTime();
    if (lookedAt == Long.MIN_VALUE || now - lookedAt > FRESH.toNanos()) {
      shares = look();
      lookedAt = now;
    }
    return shares.getOrDefault(recipient, NOTHING);
  }

  private Map<String, Share> look() {
    Instant now = clock.instant();
    Map<String, Share> found = new HashMap<>();
    jdbc.sql(
            "select d.recipient, count(*) as waiting, min(coalesce(d.wanted_at,"
                + " d.queued_at)) as oldest from delivery d"
                + " where d.state in ('queued', 'under-way', 'waiting') group by d.recipient")
        .query(
            row -> {
              Instant oldest = row.getObject("oldest", OffsetDateTime.class).toInstant();
              Duration age = Duration.between(oldest, now);
              found.put(
                  row.getString("recipient"),
                  new Share(row.getLong("waiting"), age.isNegative() ? Duration.ZERO : age));
            });
    return found;
  }
}
