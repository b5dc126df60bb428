package org.intercusp.registry.intake;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * {@code outcomes load} is killed, or interrupted as by Ctrl-C, with some of a file loaded; the
 * same command again goes on there, and nothing is counted or there twice.
 */
@Tag("long")
class InterruptedLoadIT {

  /** Two batches and a rest. */
  private static final int RECORDS = 45_000;

  @TempDir Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"KILL", "INT"})
  void theSameCommandGoesOn(String signal) throws Exception {
    Path file = folder.resolve("outcomes.ndjson");
    Files.write(file, Registry.generated(RECORDS, 3), StandardCharsets.UTF_8);

    Process first = load(file, "first.log");
    Path loads = folder.resolve("data/registry/loads");
    long end = System.nanoTime() + TimeUnit.MINUTES.toNanos(4);
    while (!isBegun(loads) && first.isAlive() && System.nanoTime() < end) {
      Thread.sleep(20);
    }
    assertThat(new ProcessBuilder("kill", "-" + signal, "" + first.pid()).start().waitFor())
        .isZero();
    assertThat(first.waitFor(2, TimeUnit.MINUTES)).isTrue();
    LoadStatus stopped = journal(loads);
    assertThat(stopped.state()).isEqualTo(LoadStatus.State.RUNNING);
    assertThat(stopped.counts().read()).isPositive().isLessThan(RECORDS);

    Process second = load(file, "second.log");
    assertThat(second.waitFor(6, TimeUnit.MINUTES)).isTrue();
    assertThat(second.exitValue()).as(Files.readString(folder.resolve("second.log"))).isZero();
    LoadStatus done = journal(loads);
    assertThat(done.state()).isEqualTo(LoadStatus.State.DONE);
    assertThat(done.startedAt()).isEqualTo(stopped.startedAt());
    LoadCounts counts = done.counts();
    assertThat(counts.read()).isEqualTo(RECORDS);
    assertThat(counts.fresh() + counts.same() + counts.replaced() + counts.refused())
        .isEqualTo(RECORDS);
    assertThat(counts.same()).isZero();
    assertThat(
            new Registry(folder.resolve("data"))
                .ask("SELECT count(*), count(DISTINCT submission) FROM CASES"))
        .containsExactly(counts.fresh() + "," + counts.fresh());
  }

  private static boolean isBegun(Path loads) throws IOException {
    return !journals(loads).isEmpty();
  }

  private static LoadStatus journal(Path loads) throws IOException {
    assertThat(journals(loads)).hasSize(1);
    return LoadStatus.read(journals(loads).get(0)).orElseThrow();
  }

  private static List<Path> journals(Path loads) throws IOException {
    if (!Files.isDirectory(loads)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(loads)) {
      return files.filter(each -> each.toString().endsWith(".json")).toList();
    }
  }

  private Process load(Path file, String log) throws IOException {
    List<String> command = new ArrayList<>();
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(
        List.of(
            "-Xmx512m",
            "-Dintercusp.data=" + folder.resolve("data"),
            "-cp",
            System.getProperty("java.class.path"),
            "org.intercusp.app.Intercusp",
            "outcomes",
            "load",
            file.toString()));
    return new ProcessBuilder(command)
        .redirectErrorStream(true)
        .redirectOutput(folder.resolve(log).toFile())
        .start();
  }
}
