package org.intercusp.bulk;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import javax.sql.DataSource;
import org.intercusp.access.Caller;
import org.intercusp.access.Clinic;
import org.intercusp.access.Scopes;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements of exports, for H2 and PostgreSQL alike. */
final class ExportRows {

  /** What every export asks of who comes, and all that a worker needs to write it. */
  private static final Scopes SCOPES = Scopes.of(Set.of("system/*.rs"));

  private static final String THIS_ATTEMPT =
      " where id = :id and attempt = :attempt and state = 'RUNNING'";

  private final JdbcClient jdbc;

  ExportRows(DataSource database) {
    this.jdbc = JdbcClient.create(database);
  }

  void add(ExportJob job, Instant now) {
    Instant since = job.wanted().since();
    jdbc.sql(
            "insert into bulk_export (id, owner, owner_name, owner_kind, reach, request, types,"
                + " changed_since, asked_at, moment, transaction_time, state, attempt, written,"
                + " total, output) values (:id, :owner, :name, :kind, :reach, :request, :types,"
                + " :since, :now, :moment, :time, :state, 0, 0, 0, '')")
        .param("id", job.id())
        .param("owner", job.owner().subject())
        .param("name", job.owner().name())
        .param("kind", job.owner().kind().name())
        .param("reach", ReachText.of(job.owner().reach()))
        .param("request", job.wanted().request())
        .param("types", String.join(",", job.wanted().types()))
        .param("since", since == null ? null : time(since))
        .param("now", time(now))
        .param("moment", job.moment())
        .param("time", time(job.transactionTime()))
        .param("state", job.state().name())
        .update();
  }

  Optional<ExportJob> find(String id) {
    return jdbc.sql("select * from bulk_export where id = :id")
        .param("id", id)
        .query(ExportRows::job)
        .optional();
  }

  /** What a caller has here, expired or not. */
  List<ExportJob> of(Caller owner) {
    return jdbc.sql("select * from bulk_export where owner = :owner and owner_kind = :kind")
        .param("owner", owner.subject())
        .param("kind", owner.kind().name())
        .query(ExportRows::job)
        .list();
  }

  /** Those of whoever reached a clinic when they asked, whose files may hold something of it. */
  List<ExportJob> reaching(Clinic clinic) {
    return jdbc.sql("select * from bulk_export").query(ExportRows::job).list().stream()
        .filter(job -> job.owner().reach().covers(clinic))
        .toList();
  }

  /** The one that has waited longest, of those nobody works on. */
  Optional<ExportJob> due(Instant now) {
    return jdbc.sql(
            "select * from bulk_export where state = 'WAITING' or (state = 'RUNNING' and"
                + " leased_until < :now) order by asked_at, id fetch first 1 rows only")
        .param("now", time(now))
        .query(ExportRows::job)
        .optional();
  }

  /** Takes it for the next attempt; false when somebody else did. */
  boolean claim(ExportJob job, Instant until) {
    return jdbc.sql(
                "update bulk_export set state = 'RUNNING', attempt = attempt + 1, written = 0,"
                    + " leased_until = :until where id = :id and attempt = :attempt and state in"
                    + " ('WAITING', 'RUNNING')")
            .param("until", time(until))
            .param("id", job.id())
            .param("attempt", job.attempt())
            .update()
        == 1;
  }

  /** A sign of life; false when it was cancelled or taken over. */
  boolean renew(ExportJob job, long written, long total, Instant until) {
    return of(
                job,
                "update bulk_export set written = :written, total = :total, leased_until = :until"
                    + THIS_ATTEMPT)
            .param("written", written)
            .param("total", total)
            .param("until", time(until))
            .update()
        == 1;
  }

  boolean end(ExportJob job, ExportJob.State state, List<ExportJob.Output> files, Instant expires) {
    String output =
        files.stream()
            .map(file -> file.type() + " " + file.count())
            .collect(Collectors.joining("\n"));
    return of(
                job,
                "update bulk_export set state = :state, leased_until = null, output = :output,"
                    + " expires_at = :expires"
                    + THIS_ATTEMPT)
            .param("state", state.name())
            .param("output", output)
            .param("expires", time(expires))
            .update()
        == 1;
  }

  /** Gives it back, for whoever comes next. */
  void release(ExportJob job) {
    of(job, "update bulk_export set state = 'WAITING', leased_until = null" + THIS_ATTEMPT)
        .update();
  }

  boolean remove(String id) {
    return jdbc.sql("delete from bulk_export where id = :id").param("id", id).update() == 1;
  }

  int removeExpired(Instant now) {
    return jdbc.sql("delete from bulk_export where expires_at <= :now")
        .param("now", time(now))
        .update();
  }

  /** Which attempt of each is the one that counts. */
  Map<String, Integer> attempts() {
    Map<String, Integer> attempts = new HashMap<>();
    jdbc.sql("select id, attempt from bulk_export")
        .query(
            row -> {
              attempts.put(row.getString(1), row.getInt(2));
            });
    return attempts;
  }

  private JdbcClient.StatementSpec of(ExportJob job, String sql) {
    return jdbc.sql(sql).param("id", job.id()).param("attempt", job.attempt());
  }

  private static OffsetDateTime time(Instant instant) {
    return instant.atOffset(ZoneOffset.UTC);
  }

  private static @Nullable Instant instant(ResultSet row, String column) throws SQLException {
    OffsetDateTime time = row.getObject(column, OffsetDateTime.class);
    return time == null ? null : time.toInstant();
  }

  private static ExportJob job(ResultSet row, int number) throws SQLException {
    Caller owner =
        new Caller(
            row.getString("owner"),
            row.getString("owner_name"),
            Caller.Kind.valueOf(row.getString("owner_kind").toUpperCase(Locale.ROOT)),
            ReachText.read(row.getString("reach")),
            SCOPES);
    List<String> types =
        Arrays.stream(row.getString("types").split(",")).filter(type -> !type.isEmpty()).toList();
    return new ExportJob(
        row.getString("id"),
        owner,
        new Wanted(types, instant(row, "changed_since"), row.getString("request")),
        row.getLong("moment"),
        row.getObject("transaction_time", OffsetDateTime.class).toInstant(),
        ExportJob.State.valueOf(row.getString("state")),
        row.getInt("attempt"),
        row.getLong("written"),
        row.getLong("total"),
        instant(row, "expires_at"),
        row.getString("output").lines().map(ExportRows::output).toList());
  }

  private static ExportJob.Output output(String line) {
    String[] words = line.split(" ", 2);
    return new ExportJob.Output(words[0], Long.parseLong(words[1]));
  }
}
