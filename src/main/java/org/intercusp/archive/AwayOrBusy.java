package org.intercusp.archive;

import java.sql.Connection;
import java.sql.SQLException;
import java.sql.SQLTransientConnectionException;
import java.time.Duration;
import java.util.concurrent.atomic.AtomicLong;
import javax.sql.DataSource;
import org.springframework.jdbc.datasource.DelegatingDataSource;

/**
 * Tells a pool whose database is away from one whose connections are all in use. It waits the same
 * for both: long enough for a busy one, a database that is away keeps every thread of the service
 * waiting, also the one that answers for its life. So the pool waits a short time, and whoever
 * finds nothing wrong but others at work waits on.
 */
public final class AwayOrBusy extends DelegatingDataSource {

  private final long patienceNanos;

  /** When a connection was last found not to come about, in nanoseconds of this machine. */
  private final AtomicLong away;

  /**
   * Around a pool.
   *
   * @param patience how long to wait where others are at work
   */
  public AwayOrBusy(DataSource pool, Duration patience) {
    super(pool);
    this.patienceNanos = patience.toNanos();
    this.away = new AtomicLong(System.nanoTime());
  }

  @Override
  public Connection getConnection() throws SQLException {
    long begin = System.nanoTime();
    while (true) {
      long asked = System.nanoTime();
      try {
        return super.getConnection();
      } catch (SQLTransientConnectionException e) {
        if (isAway(e, asked) || System.nanoTime() - begin > patienceNanos) {
          throw e;
        }
      }
    }
  }

  /**
   * Whether it was more than a lack of connections. The pool gives the reason why none could be
   * made to one of those who wait, and it is the same for the others.
   */
  private boolean isAway(SQLTransientConnectionException fault, long asked) {
    if (fault.getCause() != null) {
      away.set(System.nanoTime());
      return true;
    }
    return away.get() - asked > 0;
  }
}
