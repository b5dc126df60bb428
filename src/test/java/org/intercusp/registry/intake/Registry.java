package org.intercusp.registry.intake;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Properties;
import java.util.stream.Stream;
import org.intercusp.registry.privacy.Reduction;
import org.intercusp.scenario.OutcomeGenerator;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionWriter;

/** A registry of the tests, and what lies in it by the word of the engine itself. */
final class Registry {

  static final Clock CLOCK = Clock.fixed(Instant.parse("2026-11-20T09:00:00Z"), ZoneOffset.UTC);

  final RegistryPlace place;
  final OutcomeIntake intake;

  Registry(Path folder) {
    this(folder, Reduction.DEFAULT);
  }

  Registry(Path folder, Reduction reduction) {
    this.place =
        new RegistryPlace(folder.resolve("registry"), folder.resolve("own/keys"), reduction);
    this.intake = new OutcomeIntake(place, CLOCK);
  }

  static List<String> generated(int count, long seed) {
    SubmissionWriter writer = new SubmissionWriter();
    return new OutcomeGenerator().records(count, seed).map(r -> text(writer, r)).toList();
  }

  private static String text(SubmissionWriter writer, Submission record) {
    return new String(writer.write(record), UTF_8);
  }

  LoadStatus load(List<String> lines) throws IOException {
    return load(String.join("\n", lines));
  }

  LoadStatus load(String text) throws IOException {
    return intake.load(
        new ByteArrayInputStream(text.getBytes(UTF_8)), (status, refusals) -> {}, () -> false);
  }

  /** What the engine answers over the Parquet files, each row joined by commas. */
  List<String> ask(String sql) throws SQLException {
    String files = "read_parquet('" + place.root().resolve("cases") + "/part-*.parquet')";
    try (Connection duck = DriverManager.getConnection("jdbc:duckdb:", new Properties());
        Statement statement = duck.createStatement();
        ResultSet rows = statement.executeQuery(sql.replace("CASES", files))) {
      List<String> all = new ArrayList<>();
      int columns = rows.getMetaData().getColumnCount();
      while (rows.next()) {
        List<String> row = new ArrayList<>();
        for (int i = 1; i <= columns; i++) {
          row.add(String.valueOf(rows.getObject(i)));
        }
        all.add(String.join(",", row));
      }
      return all;
    }
  }

  /** Every file below the registry, by its path. */
  List<Path> files() throws IOException {
    try (Stream<Path> walk = Files.walk(place.root())) {
      return walk.filter(Files::isRegularFile).toList();
    }
  }

  static LocalDate today() {
    return LocalDate.now(CLOCK);
  }
}
