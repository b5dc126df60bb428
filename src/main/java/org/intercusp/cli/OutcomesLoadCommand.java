package org.intercusp.cli;

import java.io.BufferedWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import org.intercusp.registry.intake.LoadListener;
import org.intercusp.registry.intake.LoadStatus;
import org.intercusp.registry.intake.OutcomeIntake;
import org.intercusp.registry.store.StoreFault;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/**
 * Loads outcome records. An interrupted load, even a killed one, goes on where it stopped when the
 * same file is loaded again.
 */
@Command(
    name = "load",
    mixinStandardHelpOptions = true,
    description = "takes outcome records (NDJSON) into the registry")
@Component
final class OutcomesLoadCommand implements Callable<Integer> {

  /** How long an interrupted load may take to write what it has; common practice, no source. */
  private static final int GRACE_SECONDS = 60;

  @Parameters(arity = "1..*", paramLabel = "FILE", description = "NDJSON; - is stdin")
  List<Input> files = List.of();

  @Option(
      names = "--refusals",
      paramLabel = "FILE",
      description = "adds what is refused to this file instead of standard error")
  @Nullable Path refusals;

  private final OutcomeIntake intake;
  private final Console console;
  private final AtomicBoolean stop = new AtomicBoolean();

  OutcomesLoadCommand(OutcomeIntake intake, Console console) {
    this.intake = intake;
    this.console = console;
  }

  @Override
  public Integer call() {
    CountDownLatch written = new CountDownLatch(1);
    Thread interrupted = new Thread(() -> stop(written));
    Runtime.getRuntime().addShutdownHook(interrupted);
    ExitCode worst = ExitCode.CLEAN;
    try {
      for (Input file : files) {
        if (!stop.get()) {
          worst = worst.or(load(file));
        }
      }
    } finally {
      written.countDown();
    }
    if (!stop.get()) {
      Runtime.getRuntime().removeShutdownHook(interrupted);
    }
    return worst.code();
  }

  private void stop(CountDownLatch written) {
    stop.set(true);
    try {
      if (!written.await(GRACE_SECONDS, TimeUnit.SECONDS)) {
        console.say("interrupted before the last batch was written");
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    console.flush();
  }

  private ExitCode load(Input file) {
    LoadWords words = new LoadWords(console, file.size());
    try {
      LoadListener listener =
          (status, lines) -> {
            tell(lines);
            words.step(status);
          };
      LoadStatus status =
          file.isStandardInput()
              ? intake.load(file.open(), listener, stop::get)
              : intake.load(Path.of(file.name()), listener, stop::get);
      words.end(status);
      return status.counts().refused() > 0 ? ExitCode.FINDINGS : ExitCode.CLEAN;
    } catch (StoreFault e) {
      console.say(String.valueOf(e.getMessage()));
      return ExitCode.OUR_FAULT;
    } catch (IOException | UncheckedIOException e) {
      console.say(isReadable(file) ? "Not loaded: " + Words.of(e) : file + ": cannot be read");
      return Words.code(e, ExitCode.UNREADABLE);
    }
  }

  private static boolean isReadable(Input file) {
    return file.isStandardInput() || Files.isReadable(Path.of(file.name()));
  }

  private void tell(List<String> lines) {
    if (refusals == null) {
      lines.forEach(line -> console.say(LoadWords.shown(line)));
      return;
    }
    try (BufferedWriter out =
        Files.newBufferedWriter(refusals, StandardOpenOption.CREATE, StandardOpenOption.APPEND)) {
      for (String line : lines) {
        out.write(LoadWords.shown(line));
        out.newLine();
      }
    } catch (IOException e) {
      throw new UncheckedIOException("the refusals cannot be written: " + refusals, e);
    }
  }
}
