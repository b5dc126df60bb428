package org.intercusp.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.intercusp.archive.BackupFile;
import org.springframework.core.env.Environment;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Brings a backup back into a data directory that has no database. */
@Command(
    name = "restore",
    mixinStandardHelpOptions = true,
    description =
        "brings a backup into the data directory, which has no database yet; what was queued goes"
            + " on when the service starts")
@Component
final class RestoreCommand implements Callable<Integer> {

  @Option(names = "--from", required = true, paramLabel = "FILE", description = "a backup")
  Path from = Path.of("");

  private final Environment environment;
  private final Console console;

  RestoreCommand(Environment environment, Console console) {
    this.environment = environment;
    this.console = console;
  }

  @Override
  public Integer call() {
    Path directory = Path.of(environment.getRequiredProperty("intercusp.data"));
    try {
      BackupFile.restore(from, directory);
      console.result(from + " is restored in " + directory);
      return ExitCode.CLEAN.code();
    } catch (IOException e) {
      console.say("Not restored: " + Words.of(e));
      return Words.code(e, ExitCode.UNREADABLE).code();
    }
  }
}
