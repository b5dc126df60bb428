package org.intercusp.measured;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.stream.Stream;
import org.intercusp.rules.ExaminationWriter;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.ReadLine;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import tools.jackson.databind.json.JsonMapper;

/**
 * Measures, in one run over one NDJSON file, what reading as a tree, reading strictly, and checking
 * cost: medians of three, after a round to warm up. Not a test; DEVELOPERS.md has the command.
 */
final class CheckRate {

  private static final JsonMapper JSON = new JsonMapper();

  private final Path file;
  private final TreatmentReader reader = new TreatmentReader();
  private final Examiner examiner = new Examiner();
  private final ExaminationWriter writer = new ExaminationWriter();

  private CheckRate(Path file) {
    this.file = file;
  }

  public static void main(String... args) {
    new CheckRate(Path.of(args[0])).run();
  }

  private void run() {
    List<Long> trees = new ArrayList<>();
    List<Long> reads = new ArrayList<>();
    List<Long> checks = new ArrayList<>();
    long lines = 0;
    for (int round = 0; round < 4; round++) {
      long start = System.nanoTime();
      lines = trees();
      long tree = System.nanoTime();
      read(false);
      long read = System.nanoTime();
      read(true);
      long check = System.nanoTime();
      if (round > 0) {
        trees.add(tree - start);
        reads.add(read - tree);
        checks.add(check - read);
      }
    }
    System.out.printf(
        "%d files: tree %.0f a second, strict reading %.0f (%.1f times the cost), check %.0f (%.1f"
            + " times)%n",
        lines,
        lines / seconds(trees),
        lines / seconds(reads),
        seconds(reads) / seconds(trees),
        lines / seconds(checks),
        seconds(checks) / seconds(trees));
  }

  private static double seconds(List<Long> nanos) {
    List<Long> sorted = new ArrayList<>(nanos);
    Collections.sort(sorted);
    return sorted.get(sorted.size() / 2) / 1e9;
  }

  private long trees() {
    try (BufferedReader lines = Files.newBufferedReader(file)) {
      return lines.lines().filter(line -> JSON.readTree(line).isObject()).count();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void read(boolean examine) {
    try (InputStream bytes = Files.newInputStream(file);
        Stream<ReadLine> lines = reader.readLines(bytes)) {
      lines.forEach(line -> one(line.result(), examine));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void one(ReadResult result, boolean examine) {
    Treatment treatment = ((ReadResult.Accepted) result).treatment();
    if (examine) {
      LocalDate asOf = treatment.asOf();
      LocalDate on = asOf == null ? treatment.diagnosis().assessedOn() : asOf;
      if (writer.write(examiner.examine(treatment, on)).isEmpty()) {
        throw new IllegalStateException("an examination is not empty");
      }
    }
  }
}
