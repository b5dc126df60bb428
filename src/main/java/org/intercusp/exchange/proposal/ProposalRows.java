package org.intercusp.exchange.proposal;

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
import org.intercusp.archive.KeyColumns;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.proposal.Proposal.Content;
import org.intercusp.exchange.proposal.Proposal.Kind;
import org.intercusp.exchange.proposal.Proposal.State;
import org.intercusp.finding.ShortText;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;

/** The statements about proposals, for H2 and PostgreSQL alike, within the caller's reach. */
final class ProposalRows {

  /** Width of the columns. */
  private static final int LONGEST = 2_000;

  private static final String OF_KEY = " and " + KeyColumns.areGiven("p");

  private final JdbcClient jdbc;
  private final CurrentCaller callers;

  ProposalRows(DataSource database, CurrentCaller callers) {
    this.jdbc = JdbcClient.create(database);
    this.callers = callers;
  }

  /** Holds the treatment's row, so that whoever else proposes or decides waits. */
  void hold(TreatmentKey key) {
    of(key, "select p.newest from treatment p where {reach}" + OF_KEY + " for update")
        .query(Integer.class)
        .optional();
  }

  /** All of a treatment, the newest first. */
  List<Proposal> of(TreatmentKey key) {
    return of(key, "select p.* from proposal p where {reach}" + OF_KEY + " order by p.number desc")
        .query(ProposalRows::proposal)
        .list();
  }

  /** Whether one of a kind waits for a decision. */
  boolean isOpen(TreatmentKey key, String recipient, Kind kind) {
    return of(
                key,
                "select count(*) from proposal p where {reach}"
                    + OF_KEY
                    + " and p.recipient = :to and p.kind = :kind and p.state = :open")
            .param("to", recipient)
            .param("kind", kind.code())
            .param("open", State.OPEN.code())
            .query(Long.class)
            .single()
        > 0;
  }

  Optional<Proposal> find(TreatmentKey key, int number) {
    return of(key, "select p.* from proposal p where {reach}" + OF_KEY + " and p.number = :number")
        .param("number", number)
        .query(ProposalRows::proposal)
        .optional();
  }

  void add(Proposal one) {
    callers.mustReach(one.treatment().reached());
    String insert =
        "insert into proposal (clinic_system, clinic_value, treatment_id, number, recipient,"
            + " kind, state, subject, standing, base_version, found_at, decided_by, reason,"
            + " content) values (:system, :clinic, :treatment, :number, :to, :kind, :state,"
            + " :subject, :standing, :base, :found, '', :reason, :content)";
    KeyColumns.bind(jdbc.sql(insert), one.treatment())
        .param("number", one.number())
        .param("to", one.recipient())
        .param("kind", one.kind().code())
        .param("state", one.state().code())
        .param("subject", bounded(one.subject()))
        .param("standing", one.standing())
        .param("base", one.base())
        .param("found", one.foundAt().atOffset(ZoneOffset.UTC))
        .param("reason", bounded(one.reason()))
        .param("content", Placing.JSON.writeValueAsString(one.content()))
        .update();
  }

  /** Another state, decided now. */
  void decide(
      Proposal one, State state, String by, @Nullable Integer made, String reason, Instant now) {
    of(
            one.treatment(),
            "update proposal p set state = :state, decided_by = :by, made_version = :made,"
                + " reason = :reason, decided_at = :now where {reach}"
                + OF_KEY
                + " and p.number = :number")
        .param("state", state.code())
        .param("by", by)
        .param("made", made)
        .param("reason", bounded(reason))
        .param("now", now.atOffset(ZoneOffset.UTC))
        .param("number", one.number())
        .update();
  }

  /** The recipient says so no longer. */
  void lapse(Proposal one) {
    of(
            one.treatment(),
            "update proposal p set standing = false where {reach}"
                + OF_KEY
                + " and p.number = :number")
        .param("number", one.number())
        .update();
  }

  private JdbcClient.StatementSpec of(TreatmentKey key, String sql) {
    Condition reach = callers.condition("p");
    return KeyColumns.bind(jdbc.sql(sql.replace("{reach}", reach.sql())), key)
        .params(reach.params());
  }

  private static String bounded(String text) {
    String whole = text.replace("\u0000", "");
    return whole.length() <= LONGEST ? whole : ShortText.shown(whole, LONGEST - 3);
  }

  private static Proposal proposal(ResultSet row, int number) throws SQLException {
    OffsetDateTime decided = row.getObject("decided_at", OffsetDateTime.class);
    return new Proposal(
        KeyColumns.read(row),
        row.getInt("number"),
        row.getString("recipient"),
        Kind.of(row.getString("kind")),
        State.of(row.getString("state")),
        row.getString("subject"),
        row.getBoolean("standing"),
        row.getInt("base_version"),
        row.getObject("found_at", OffsetDateTime.class).toInstant(),
        decided == null ? null : decided.toInstant(),
        row.getString("decided_by"),
        (Integer) row.getObject("made_version"),
        row.getString("reason"),
        Placing.JSON.readValue(row.getString("content"), Content.class));
  }
}
