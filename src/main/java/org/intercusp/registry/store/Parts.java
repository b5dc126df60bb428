package org.intercusp.registry.store;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;

/** The Parquet files of one store and what is done to them as files. */
final class Parts {

  /** Below this a file is small; common practice of such stores, no source. */
  private static final long SMALL_ROWS = 100_000;

  /**
   * Rows that small files are put together to, and how many may stay; common practice, no source.
   */
  private static final long MERGED_ROWS = 500_000;

  private static final int SMALL_FILES = 16;

  private final Path root;
  private final Path cases;
  private final Duck duck;

  Parts(Path root, Duck duck) throws IOException {
    this.root = root;
    this.cases = root.resolve("cases");
    this.duck = duck;
    Files.createDirectories(cases);
  }

  List<Path> all() throws IOException {
    List<Path> all = new ArrayList<>();
    try (DirectoryStream<Path> files = Files.newDirectoryStream(cases, "part-*.parquet")) {
      files.forEach(all::add);
    }
    return all.stream().sorted().toList();
  }

  /** What to select from; the empty table {@code batch} while there is no file. */
  String from() throws IOException {
    return all().isEmpty()
        ? "(SELECT * FROM batch LIMIT 0)"
        : "read_parquet(" + Duck.quoted(cases.resolve("part-*.parquet")) + ")";
  }

  private Path fresh(long firstSequence) {
    return cases.resolve("part-%012d.parquet".formatted(firstSequence));
  }

  /** Writes what the select gives as a new file. */
  void write(Change change, String select, long firstSequence) throws IOException, SQLException {
    copy(select, change.put(fresh(firstSequence)));
  }

  private void copy(String select, Path file) throws SQLException {
    duck.run(
        "COPY (" + select + ") TO " + Duck.quoted(file) + " (FORMAT parquet, COMPRESSION zstd)");
  }

  /** Rewrites each file that holds rows of the table {@code dead} without them. */
  void bury(Change change) throws IOException, SQLException {
    if (all().isEmpty() || duck.number("SELECT count(*) FROM dead") == 0) {
      return;
    }
    List<String> touched =
        duck.list(
            "SELECT DISTINCT filename FROM read_parquet("
                + Duck.quoted(cases.resolve("part-*.parquet"))
                + ", filename = true) WHERE sequence IN (SELECT sequence FROM dead)",
            row -> row.getString(1));
    for (String name : touched) {
      Path file = Path.of(name);
      String left =
          " FROM read_parquet("
              + Duck.quoted(file)
              + ") WHERE sequence NOT IN (SELECT sequence FROM dead)";
      if (duck.number("SELECT count(*)" + left) == 0) {
        change.delete(file.toAbsolutePath());
      } else {
        copy("SELECT *" + left, change.put(file.toAbsolutePath()));
      }
    }
  }

  /** Puts small files together where there are many. */
  void merge() throws IOException, SQLException {
    List<Path> small = new ArrayList<>();
    long rows = 0;
    List<Path> files = all();
    if (files.size() <= SMALL_FILES) {
      return;
    }
    for (Path file : files) {
      long here = duck.number("SELECT count(*) FROM read_parquet(" + Duck.quoted(file) + ")");
      if (here < SMALL_ROWS) {
        small.add(file);
        rows += here;
      }
      if (rows >= MERGED_ROWS) {
        merge(small);
        small.clear();
        rows = 0;
      }
    }
    if (small.size() > SMALL_FILES) {
      merge(small);
    }
  }

  private void merge(List<Path> files) throws IOException, SQLException {
    if (files.size() < 2) {
      return;
    }
    Change change = new Change(root);
    String list = files.stream().map(Duck::quoted).collect(Collectors.joining(", "));
    // The first keeps its name: its content is among what replaces it.
    files.stream().skip(1).forEach(change::delete);
    copy("SELECT * FROM read_parquet([" + list + "])", change.put(files.get(0)));
    change.commit();
  }
}
