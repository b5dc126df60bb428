package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import org.intercusp.registry.privacy.KeyRing;
import org.intercusp.registry.privacy.Pseudonyms;

/**
 * Lays the keys over stored rows that were added since they were written, one file at a time, so
 * that the same person still matches and an old key alone opens nothing any more. What is cut short
 * goes on at the next opening.
 */
final class Rekeying {

  private final Path root;
  private final Duck duck;
  private final Parts parts;
  private final KeyRing keys;

  Rekeying(Path root, Duck duck, Parts parts, KeyRing keys) {
    this.root = root;
    this.duck = duck;
    this.parts = parts;
    this.keys = keys;
  }

  void run() throws IOException, SQLException {
    for (Path part : parts.all()) {
      String from = "read_parquet(" + Duck.quoted(part) + ")";
      String old = "key_id <> '" + keys.current().replace("'", "''") + "'";
      if (duck.number("SELECT count(*) FROM " + from + " WHERE " + old) > 0) {
        rekey(part, from);
      }
    }
  }

  private void rekey(Path part, String from) throws IOException, SQLException {
    Pseudonyms pseudonyms = keys.pseudonyms();
    duck.run(
        "CREATE TABLE laid (sequence BIGINT, submission VARCHAR, person VARCHAR, treatment VARCHAR,"
            + " content VARCHAR)");
    List<List<Object>> rows =
        duck.list(
            "SELECT sequence, submission, person, treatment, content, key_id FROM " + from,
            row -> {
              String key = row.getString(6);
              return List.<Object>of(
                  row.getLong(1),
                  pseudonyms.carriedOn(row.getString(2), key),
                  pseudonyms.carriedOn(row.getString(3), key),
                  pseudonyms.carriedOn(row.getString(4), key),
                  pseudonyms.carriedOn(row.getString(5), key));
            });
    duck.append("laid", rows);
    Change change = new Change(root);
    duck.run(
        "COPY (SELECT p.* EXCLUDE (file_row_number) REPLACE (l.submission AS submission,"
            + " l.person AS person, l.treatment AS treatment, l.content AS content, '"
            + keys.current().replace("'", "''")
            + "' AS key_id) FROM read_parquet("
            + Duck.quoted(part)
            + ", file_row_number = true) p JOIN laid l ON p.sequence = l.sequence"
            + " ORDER BY p.file_row_number) TO "
            + Duck.quoted(change.put(part))
            + " (FORMAT parquet, COMPRESSION zstd)");
    duck.run("DROP TABLE laid");
    change.commit();
  }
}
