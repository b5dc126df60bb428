package org.intercusp.exchange.queue;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import javax.sql.DataSource;
import org.intercusp.access.Condition;
import org.intercusp.access.CurrentCaller;
import org.intercusp.access.TraceContext;
import org.intercusp.archive.KeyColumns;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.records.DeliveryReport;
import org.intercusp.finding.ShortText;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import tools.jackson.databind.json.JsonMapper;

/** The statements about deliveries and their attempts, for H2 and PostgreSQL alike. */
public final class DeliveryRows {

  /** Width of the column. */
  private static final int LONGEST_REASON = 2_000;

  private static final JsonMapper JSON = new JsonMapper();

  /** Stands in a statement for the condition of the caller's reach. */
  private static final String WITHIN = "{reach}";

  private static final String SELECT = "select d.* from delivery d where {reach}";
  private static final String OF_KEY = " " + KeyColumns.areGiven("d");

  private final JdbcClient jdbc;
  private final CurrentCaller callers;

  public DeliveryRows(DataSource database, CurrentCaller callers) {
    this.jdbc = JdbcClient.create(database);
    this.callers = callers;
  }

  void add(Delivery delivery, String patient) {
    callers.mustReach(delivery.treatment().reached());
    of(
            delivery.treatment(),
            "insert into delivery (id, clinic_system, clinic_value, treatment_id, version,"
                + " recipient, patient, state, reason, queued_at, changed_at, due_at, wanted_at,"
                + " attempts, fence, trace) values (:id, :system, :clinic, :treatment, :version, :recipient,"
                + " :patient, :state, :reason, :queued, :changed, :due, :wanted,"
                + " 0, 0, :trace)")
        .param("id", delivery.id())
        .param("version", delivery.version())
        .param("recipient", delivery.recipient())
        .param("patient", patient)
        .param("state", delivery.state().code())
        .param("reason", delivery.reason())
        .param("queued", at(delivery.queuedAt()))
        .param("changed", at(delivery.changedAt()))
        .param("due", delivery.dueAt() == null ? null : at(delivery.dueAt()))
        .param("wanted", at(delivery.dueAt() == null ? delivery.queuedAt() : delivery.dueAt()))
        .param("trace", CurrentCaller.trace().header())
        .update();
  }

  /** One delivery. */
  public Optional<Delivery> find(String id) {
    return reached(SELECT + " and d.id = :id")
        .param("id", id)
        .query(DeliveryRows::delivery)
        .optional();
  }

  /** Found, and held until the transaction ends: nobody moves it meanwhile. */
  public Optional<Delivery> held(String id) {
    return reached(SELECT + " and d.id = :id for update")
        .param("id", id)
        .query(DeliveryRows::delivery)
        .optional();
  }

  Optional<Delivery> find(TreatmentKey key, int version, String recipient) {
    return of(key, SELECT + " and" + OF_KEY + " and d.version = :version and d.recipient = :to")
        .param("version", version)
        .param("to", recipient)
        .query(DeliveryRows::delivery)
        .optional();
  }

  /** All of a treatment, the newest first. */
  public List<Delivery> of(TreatmentKey key) {
    return of(key, SELECT + " and" + OF_KEY + " order by d.queued_at desc, d.id")
        .query(DeliveryRows::delivery)
        .list();
  }

  List<Delivery> newest(int offset, int length) {
    return reached(
            SELECT
                + " order by d.queued_at desc, d.id offset :offset rows"
                + " fetch first :length rows only")
        .param("offset", offset)
        .param("length", length)
        .query(DeliveryRows::delivery)
        .list();
  }

  long count(DeliveryState state) {
    return reached("select count(*) from delivery d where {reach} and d.state = :state")
        .param("state", state.code())
        .query(Long.class)
        .single();
  }

  /** The lane of the patient of a delivery that is there: a digest. */
  public String patient(String id) {
    return reached("select d.patient from delivery d where {reach} and d.id = :id")
        .param("id", id)
        .query(String.class)
        .single();
  }

  /** The chain of requests in which it was asked for; a new one where that is not known. */
  public TraceContext trace(String id) {
    return reached("select d.trace from delivery d where {reach} and d.id = :id")
        .param("id", id)
        .query((row, number) -> TraceContext.read(row.getString("trace")))
        .optional()
        .flatMap(trace -> trace)
        .map(TraceContext::next)
        .orElseGet(TraceContext::fresh);
  }

  /**
   * The newest version of the treatment that was asked for after this one, for the recipient. One
   * that waits for a later day takes nobody's place before.
   */
  public Optional<Integer> newer(Delivery delivery, Instant now) {
    return of(
            delivery.treatment(),
            "select max(d.version) from delivery d where {reach} and"
                + OF_KEY
                + " and d.recipient = :to and d.version > :version and (d.state <> 'queued'"
                + " or d.due_at is null or d.due_at <= :now)")
        .param("now", at(now))
        .param("to", delivery.recipient())
        .param("version", delivery.version())
        .query((row, number) -> Optional.ofNullable((Integer) row.getObject(1)))
        .single();
  }

  /** Moves it to another state, whoever holds it. */
  public void move(
      String id, DeliveryState state, String reason, Instant now, @Nullable Instant due) {
    moving("where id = :id", id, state, reason, now, due).update();
  }

  /** Begins an attempt under a fence, unless the delivery came to its end meanwhile. */
  public boolean begin(Delivery delivery, long fence, Instant now) {
    int begun =
        jdbc.sql(
                "update delivery set state = :state, reason = '', changed_at = :now, due_at = null,"
                    + " attempts = attempts + 1, fence = :fence where id = :id"
                    + " and state in ('queued', 'waiting', 'under-way')")
            .param("state", DeliveryState.UNDER_WAY.code())
            .param("now", at(now))
            .param("fence", fence)
            .param("id", delivery.id())
            .update();
    if (begun == 0) {
      return false;
    }
    jdbc.sql(
            "insert into delivery_attempt (delivery_id, number, started_at, outcome, reason,"
                + " status, words) values (:id, :number, :now, :outcome, '', 0, '')")
        .param("id", delivery.id())
        .param("number", delivery.attempts() + 1)
        .param("now", at(now))
        .param("outcome", DeliveryState.UNDER_WAY.code())
        .update();
    return true;
  }

  /** Ends the attempt, unless somebody else holds the delivery by now. */
  public boolean end(
      Delivery delivery, long fence, Ending ending, Instant now, @Nullable Instant due) {
    int moved =
        moving(
                "where id = :id and fence = :fence and state = 'under-way'",
                delivery.id(),
                ending.state(),
                ending.reason(),
                now,
                due)
            .param("fence", fence)
            .update();
    if (moved == 0) {
      return false;
    }
    DeliveryReport report = ending.report();
    jdbc.sql(
            "update delivery_attempt set ended_at = :now, outcome = :outcome, reason = :reason,"
                + " status = :status, words = :words, report = :report"
                + " where delivery_id = :id and number = :number")
        .param("now", at(now))
        .param("outcome", ending.state().code())
        .param("reason", bounded(ending.reason()))
        .param("status", ending.status())
        .param("words", storable(ending.words()))
        .param("report", report == null ? null : storable(JSON.writeValueAsString(report)))
        .param("id", delivery.id())
        .param("number", delivery.attempts() + 1)
        .update();
    return true;
  }

  /** The tries of a delivery, the first one first. */
  public List<Attempt> attempts(String id) {
    return reached(
            "select t.* from delivery_attempt t join delivery d on d.id = t.delivery_id"
                + " where {reach} and d.id = :id order by t.number")
        .param("id", id)
        .query(DeliveryRows::attempt)
        .list();
  }

  private JdbcClient.StatementSpec moving(
      String where,
      String id,
      DeliveryState state,
      String reason,
      Instant now,
      @Nullable Instant due) {
    // Put off to a later day, or wanted once more: it is not late before.
    boolean anew = state == DeliveryState.QUEUED && due != null;
    return reached(
            "update delivery d set state = :state, reason = :reason, changed_at = :now,"
                + (anew ? " wanted_at = :due," : "")
                + " due_at = :due "
                + where
                + " and {reach}")
        .param("state", state.code())
        .param("reason", bounded(reason))
        .param("now", at(now))
        .param("due", due == null ? null : at(due))
        .param("id", id);
  }

  private JdbcClient.StatementSpec of(TreatmentKey key, String sql) {
    return KeyColumns.bind(reached(sql), key);
  }

  /** Every statement about deliveries is made here, within the caller's reach. */
  private JdbcClient.StatementSpec reached(String sql) {
    if (!sql.contains(WITHIN)) {
      return jdbc.sql(sql);
    }
    Condition reach = callers.condition("d");
    return jdbc.sql(sql.replace(WITHIN, reach.sql())).params(reach.params());
  }

  static OffsetDateTime at(Instant instant) {
    return instant.atOffset(ZoneOffset.UTC);
  }

  private static String bounded(String reason) {
    return ShortText.cut(storable(reason), LONGEST_REASON);
  }

  // A server's words may hold a NUL, which PostgreSQL stores in no text.
  private static String storable(String words) {
    return words.replace('\0', ' ');
  }

  private static Delivery delivery(ResultSet row, int number) throws SQLException {
    OffsetDateTime due = row.getObject("due_at", OffsetDateTime.class);
    return new Delivery(
        row.getString("id"),
        KeyColumns.read(row),
        row.getInt("version"),
        row.getString("recipient"),
        DeliveryState.of(row.getString("state")),
        row.getString("reason"),
        row.getObject("queued_at", OffsetDateTime.class).toInstant(),
        row.getObject("changed_at", OffsetDateTime.class).toInstant(),
        due == null ? null : due.toInstant(),
        row.getInt("attempts"));
  }

  private static Attempt attempt(ResultSet row, int rowNumber) throws SQLException {
    OffsetDateTime ended = row.getObject("ended_at", OffsetDateTime.class);
    String report = row.getString("report");
    return new Attempt(
        row.getInt("number"),
        row.getObject("started_at", OffsetDateTime.class).toInstant(),
        ended == null ? null : ended.toInstant(),
        DeliveryState.of(row.getString("outcome")),
        row.getString("reason"),
        row.getInt("status"),
        row.getString("words"),
        report == null ? null : JSON.readValue(report, DeliveryReport.class));
  }
}
