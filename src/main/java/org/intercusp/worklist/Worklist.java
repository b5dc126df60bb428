package org.intercusp.worklist;

import java.time.Clock;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import javax.sql.DataSource;
import org.intercusp.access.Condition;
import org.intercusp.access.CurrentCaller;
import org.intercusp.audit.AuditTrail;
import org.intercusp.audit.Deed;
import org.intercusp.audit.Thing;
import org.intercusp.rules.rule.Limit;
import org.intercusp.rules.rule.Limits;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * The list of treatments: searched, filtered by what needs attention, sorted, paged. It holds and
 * counts what is in the caller's reach.
 */
public final class Worklist {

  /** More words than anybody types; common practice, no source. */
  private static final int MOST_WORDS = 8;

  /** A delivery that needs a person, with none of a newer version for the same recipient. */
  private static final String DELIVERY =
      "exists (select 1 from delivery d where d.clinic_system = w.clinic_system and d.clinic_value"
          + " = w.clinic_value and d.treatment_id = w.treatment_id and d.state in ('refused',"
          + " 'held', 'given-up') and not exists (select 1 from delivery n where n.clinic_system ="
          + " d.clinic_system and n.clinic_value = d.clinic_value and n.treatment_id ="
          + " d.treatment_id and n.recipient = d.recipient and n.version > d.version))";

  /** A change, a merge or a loss at a recipient; what only has no place here needs no decision. */
  private static final String PROPOSAL =
      "exists (select 1 from proposal p where p.clinic_system = w.clinic_system and p.clinic_value"
          + " = w.clinic_value and p.treatment_id = w.treatment_id and p.state = 'open' and p.kind"
          + " <> 'beyond')";

  private static final String OVERDUE = "(w.next_by is not null and w.next_by < :late)";

  private static final String LISTED =
      "(select w.*, case when "
          + OVERDUE
          + " then 1 else 0 end as overdue, case when "
          + DELIVERY
          + " then 1 else 0 end as troubled, case when "
          + PROPOSAL
          + " then 1 else 0 end as proposed from worklist w where {reach}";

  private static final String RANK =
      "case when urgent > 0 then 0 when errors > 0 then 1 when overdue = 1 then 2"
          + " when troubled = 1 then 3 when proposed = 1 then 4 else 5 end";

  private final JdbcClient jdbc;
  private final Upkeep upkeep;
  private final Limits limits;
  private final Clock clock;
  private final AuditTrail trail;

  /** For a program that one person runs for themselves: they reach everything. */
  public Worklist(DataSource database, Upkeep upkeep, Limits limits, Clock clock) {
    this(
        database,
        new AuditTrail(database, CurrentCaller.withoutLogin(), clock),
        upkeep,
        limits,
        clock);
  }

  /** For callers who reach what is theirs. */
  public Worklist(
      DataSource database, AuditTrail trail, Upkeep upkeep, Limits limits, Clock clock) {
    this.trail = trail;
    this.jdbc = JdbcClient.create(database);
    this.upkeep = upkeep;
    this.limits = limits;
    this.clock = clock;
  }

  /** A page of the list as it is today. */
  public Found find(Wish wish) {
    trail.done(Deed.SEARCH, Thing.list("Treatment"));
    LocalDate today = LocalDate.now(clock);
    LocalDate late = today.minusDays(limits.of(Limit.REVIEW_GRACE).longValueExact());
    List<String> words = words(wish.words());
    // Inside, so that nothing else is asked about treatments whose names don't fit.
    String listed =
        IntStream.range(0, words.size())
            .mapToObj(word -> "position(:word" + word + " in w.search) > 0")
            .collect(Collectors.joining(" and ", words.isEmpty() ? "" : " and ", ") l"));
    Counted counted = counted(LISTED + listed, words, late);
    Attention attention = wish.attention();
    String only = attention == null ? "" : " where " + condition(attention);
    List<Found.Listed> page =
        bound(
                "select * from "
                    + LISTED
                    + listed
                    + only
                    + " order by "
                    + order(wish.order())
                    + " offset :offset rows fetch first :length rows only",
                words,
                late)
            .param("offset", wish.offset())
            .param("length", wish.length())
            .query(
                (row, number) ->
                    new Found.Listed(
                        EntryRows.entry(row),
                        row.getInt("overdue") == 1,
                        row.getInt("troubled") == 1,
                        row.getInt("proposed") == 1))
            .list();
    long matches = attention == null ? counted.all() : counted.by().getOrDefault(attention, 0L);
    return new Found(page, matches, counted.by(), counted.all(), clinics(), upkeep.waiting());
  }

  private record Counted(long all, Map<Attention, Long> by) {}

  private Counted counted(String listed, List<String> words, LocalDate late) {
    String sums =
        Stream.of(Attention.values())
            .map(
                each ->
                    "sum(case when " + condition(each) + " then 1 else 0 end) as n_" + each.code())
            .reduce("count(*) as n_all", (a, b) -> a + ", " + b);
    return bound("select " + sums + " from " + listed, words, late)
        .query(
            (row, number) -> {
              Map<Attention, Long> by = new EnumMap<>(Attention.class);
              for (Attention each : Attention.values()) {
                by.put(each, row.getLong("n_" + each.code()));
              }
              return new Counted(row.getLong("n_all"), by);
            })
        .single();
  }

  private long clinics() {
    Condition reach = trail.callers().condition("w");
    return jdbc.sql(
            "select count(*) from (select distinct w.clinic_system, w.clinic_value from worklist w"
                + " where "
                + reach.sql()
                + ") c")
        .params(reach.params())
        .query(Long.class)
        .single();
  }

  private static String condition(Attention attention) {
    return switch (attention) {
      case URGENT -> "urgent > 0";
      case ERRORS -> "errors > 0";
      case OVERDUE -> "overdue = 1";
      case DELIVERY -> "troubled = 1";
      case PROPOSAL -> "proposed = 1";
      case ANY -> "(urgent > 0 or errors > 0 or overdue = 1 or troubled = 1 or proposed = 1)";
    };
  }

  private static String order(Order order) {
    String first =
        switch (order) {
          case ATTENTION -> RANK + ", next_by nulls last, ";
          case NAME -> "";
          case ID -> "treatment_id, ";
          case REVIEW -> "next_by nulls last, ";
          case OVERJET -> "coalesce(overjet_now, overjet_start) desc nulls last, ";
          case NEWEST -> "received_at desc, ";
        };
    return first + "sort_name, treatment_id, clinic_system, clinic_value";
  }

  private JdbcClient.StatementSpec bound(String sql, List<String> words, LocalDate late) {
    Condition reach = trail.callers().condition("w");
    JdbcClient.StatementSpec spec =
        jdbc.sql(sql.replace("{reach}", reach.sql())).params(reach.params()).param("late", late);
    for (int i = 0; i < words.size(); i++) {
      spec = spec.param("word" + i, words.get(i));
    }
    return spec;
  }

  private static List<String> words(String text) {
    return Stream.of(Folded.of(text).split("[ ,]+"))
        .filter(word -> !word.isEmpty())
        .limit(MOST_WORDS)
        .toList();
  }
}
