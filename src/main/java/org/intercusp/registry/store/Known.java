package org.intercusp.registry.store;

import java.io.IOException;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * Finds the stored rows that a batch concerns. The first batch looks through the files; from the
 * second on, a table of 64 bits of each submission and person with the row's sequence (24 bytes a
 * row, on disk where the engine's memory ends) says which rows to read, if any. So a batch costs
 * the same however much is stored already.
 */
final class Known {

  private final Duck duck;
  private final Parts parts;
  private boolean asked;
  private boolean filled;

  Known(Duck duck, Parts parts) throws SQLException {
    this.duck = duck;
    this.parts = parts;
    duck.run("CREATE TABLE wanted (submission VARCHAR, person VARCHAR)");
    duck.run("CREATE TABLE known (submission UBIGINT, person UBIGINT, sequence BIGINT)");
    duck.run("CREATE TABLE hits (sequence BIGINT)");
  }

  /** Current rows of the entries' submissions, and of the persons who withdraw. */
  List<Deciding.Live> of(List<Entry> entries) throws IOException, SQLException {
    boolean withdraws = entries.stream().anyMatch(entry -> entry.row() == null);
    duck.append("wanted", wanted(entries));
    List<Deciding.Live> live = List.of();
    if (mayBeThere(withdraws)) {
      live =
          duck.list(
              "SELECT submitter, submission, person, content, revision, sequence FROM "
                  + parts.from()
                  + " WHERE "
                  + (filled ? "sequence IN (SELECT sequence FROM hits) AND " : "")
                  + concerned("submission", "person", withdraws),
              row ->
                  new Deciding.Live(
                      row.getString(1),
                      row.getString(2),
                      row.getString(3),
                      row.getString(4),
                      row.getInt(5),
                      row.getLong(6),
                      null));
    }
    duck.run("TRUNCATE wanted");
    return live;
  }

  private static List<List<@Nullable String>> wanted(List<Entry> entries) {
    List<List<@Nullable String>> wanted = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (Entry entry : entries) {
      boolean leaves = entry.row() == null;
      if (seen.add(entry.submission()) || leaves) {
        wanted.add(Arrays.asList(entry.submission(), leaves ? entry.person() : null));
      }
    }
    return wanted;
  }

  private boolean mayBeThere(boolean withdraws) throws IOException, SQLException {
    if (!asked) {
      asked = true;
      return true;
    }
    if (!filled) {
      duck.run(
          "INSERT INTO known SELECT hash(submission), hash(person), sequence FROM " + parts.from());
      filled = true;
    }
    duck.run("TRUNCATE hits");
    duck.run(
        "INSERT INTO hits SELECT sequence FROM known WHERE "
            + concerned("hash(submission)", "hash(person)", withdraws));
    return duck.number("SELECT count(*) FROM hits") > 0;
  }

  /** Whether a row is wanted; what stands in the table of the wanted is given as it is compared. */
  private static String concerned(String submission, String person, boolean withdraws) {
    return "(submission IN (SELECT "
        + submission
        + " FROM wanted)"
        + (withdraws
            ? " OR person IN (SELECT " + person + " FROM wanted WHERE person IS NOT NULL)"
            : "")
        + ") AND sequence NOT IN (SELECT sequence FROM dead)";
  }

  /** Remembers the rows of the table {@code batch}, which are about to be written. */
  void add() throws SQLException {
    if (filled) {
      duck.run("INSERT INTO known SELECT hash(submission), hash(person), sequence FROM batch");
    }
  }
}
