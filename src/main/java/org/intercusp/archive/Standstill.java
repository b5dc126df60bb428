package org.intercusp.archive;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.function.Function;
import javax.sql.DataSource;
import org.intercusp.access.Condition;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * A moment at which no filing is half done: whatever is filed after it carries no earlier time. So
 * who asks again for what was taken at its time or later misses nothing. A clinic's very first
 * filing has no row to wait for yet and is not waited for.
 */
public final class Standstill {

  private final JdbcClient jdbc;

  public Standstill(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  /**
   * A moment.
   *
   * @param sequence the newest filing
   * @param time no later filing carries an earlier one
   */
  public record Moment(long sequence, Instant time) {}

  /**
   * Waits for the filings under way in clinics within a reach, to the end of the transaction.
   *
   * @param reach the condition on rows of the table with an alias
   */
  public Moment take(Function<String, Condition> reach, Instant now) {
    Condition clinics = reach.apply("c");
    // One after the other in one order, so that two that wait never wait for each other.
    jdbc.sql(
            "select c.filed_at from resource_clinic c where "
                + clinics.sql()
                + " order by c.clinic_system, c.clinic_value for update")
        .params(clinics.params())
        .query(row -> {});
    jdbc.sql(
            "update resource_clinic c set filed_at = :now where c.filed_at < :now and "
                + clinics.sql())
        .param("now", now.atOffset(ZoneOffset.UTC))
        .params(clinics.params())
        .update();
    Condition versions = reach.apply("v");
    long sequence =
        jdbc.sql(
                "select coalesce(max(v.sequence), 0) from resource_version v where "
                    + versions.sql())
            .params(versions.params())
            .query(Long.class)
            .single();
    return new Moment(sequence, now);
  }
}
