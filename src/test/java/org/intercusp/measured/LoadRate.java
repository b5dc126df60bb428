package org.intercusp.measured;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.List;
import java.util.Properties;
import java.util.stream.Stream;
import org.intercusp.registry.intake.LoadStatus;
import org.intercusp.registry.intake.OutcomeIntake;
import org.intercusp.registry.intake.RegistryPlace;
import org.intercusp.registry.privacy.Reduction;

/**
 * Measures, in one run over one file of outcome records, what the engine takes to read it into
 * Parquet by itself, and what a load takes with schema and rule checks: medians of three, turn by
 * turn. Not a test; DEVELOPERS.md has the command.
 */
final class LoadRate {

  private final Path file;
  private final Path work;

  private LoadRate(Path file) throws IOException {
    this.file = file;
    this.work = Files.createTempDirectory(Path.of("target"), "load-rate");
  }

  public static void main(String... args) throws IOException, SQLException {
    new LoadRate(Path.of(args[0])).run();
  }

  private void run() throws IOException, SQLException {
    List<Long> engine = new ArrayList<>();
    List<Long> load = new ArrayList<>();
    List<Long> engineWork = new ArrayList<>();
    List<Long> loadWork = new ArrayList<>();
    LoadStatus status = null;
    for (int round = 0; round < 3; round++) {
      long work0 = processor();
      long start = System.nanoTime();
      engine();
      long read = System.nanoTime();
      long work1 = processor();
      status = load(work.resolve("data-" + round));
      long loaded = System.nanoTime();
      long work2 = processor();
      engineWork.add(work1 - work0);
      loadWork.add(work2 - work1);
      engine.add(read - start);
      load.add(loaded - read);
      System.out.printf(
          "round %d: engine %.1f s, load %.1f s%n",
          round + 1, (read - start) / 1e9, (loaded - read) / 1e9);
    }
    System.out.printf(
        "%s%nengine %.1f s, load %.1f s, %.2f times; heap in use %d MB%n",
        status.counts().shown(),
        median(engine),
        median(load),
        median(load) / median(engine),
        (Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory()) >> 20);
    System.out.printf(
        "processor time: engine %.1f s, load %.1f s, %.2f times%n",
        median(engineWork), median(loadWork), median(loadWork) / median(engineWork));
    System.out.print(
        Files.readAllLines(Path.of("/proc/self/status")).stream()
            .filter(line -> line.startsWith("VmHWM"))
            .findFirst()
            .orElse(""));
    System.out.println(" (most memory of the whole process, both kinds of run)");
    clear(work);
  }

  /** Processor time of this process, which others on the machine do not lengthen. */
  private static long processor() {
    return ProcessHandle.current().info().totalCpuDuration().orElse(Duration.ZERO).toNanos();
  }

  private static double median(List<Long> nanos) {
    List<Long> sorted = new ArrayList<>(nanos);
    Collections.sort(sorted);
    return sorted.get(sorted.size() / 2) / 1e9;
  }

  private void engine() throws SQLException, IOException {
    Path out = work.resolve("engine.parquet");
    try (Connection duck = DriverManager.getConnection("jdbc:duckdb:", new Properties());
        Statement statement = duck.createStatement()) {
      statement.execute("SET memory_limit = '1GB'");
      statement.execute(
          "COPY (SELECT * FROM read_json('"
              + file
              + "', format = 'newline_delimited')) TO '"
              + out
              + "' (FORMAT parquet, COMPRESSION zstd)");
    }
    Files.delete(out);
  }

  private LoadStatus load(Path data) throws IOException {
    RegistryPlace place =
        new RegistryPlace(data.resolve("registry"), data.resolve("keys"), Reduction.DEFAULT);
    LoadStatus status =
        new OutcomeIntake(place, Clock.systemUTC()).load(file, (s, refusals) -> {}, () -> false);
    clear(data);
    return status;
  }

  private static void clear(Path folder) throws IOException {
    try (Stream<Path> all = Files.walk(folder)) {
      all.sorted(Comparator.reverseOrder())
          .forEach(
              path -> {
                try {
                  Files.delete(path);
                } catch (IOException e) {
                  throw new UncheckedIOException(e);
                }
              });
    }
  }
}
