package org.intercusp.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.intercusp.registry.intake.OutcomeIntake;
import org.intercusp.registry.intake.RegistryPlace;
import org.intercusp.registry.store.CaseExport;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Writes the registry's rows for statisticians. */
@Command(
    name = "export",
    mixinStandardHelpOptions = true,
    description =
        "writes a row a current submission, with a data dictionary; pseudonymised, still personal"
            + " data: no small count is hidden. In CSV an apostrophe stands before a text that a"
            + " spreadsheet would calculate")
@Component
final class OutcomesExportCommand implements Callable<Integer> {

  @Option(names = "--format", defaultValue = "parquet", description = "${COMPLETION-CANDIDATES}")
  CaseExport.Form format = CaseExport.Form.PARQUET;

  @Option(
      names = "--to",
      required = true,
      paramLabel = "DIR",
      description = "made where it is missing; a file of an earlier export is replaced")
  Path to = Path.of(".");

  private final OutcomeIntake intake;
  private final RegistryPlace place;
  private final Console console;

  OutcomesExportCommand(OutcomeIntake intake, RegistryPlace place, Console console) {
    this.intake = intake;
    this.place = place;
    this.console = console;
  }

  @Override
  public Integer call() {
    if (Files.exists(to) && !Files.isDirectory(to)) {
      console.say("No export: " + to + " is no directory");
      return ExitCode.UNREADABLE.code();
    }
    // It would make an empty registry there, with keys of its own.
    if (Files.notExists(place.root())) {
      console.say(OutcomesCommand.NONE);
      return ExitCode.UNREADABLE.code();
    }
    long rows = intake.export(to, format);
    console.result(
        "%,d %s in %s".formatted(rows, rows == 1 ? "row" : "rows", to.resolve(format.file())));
    return ExitCode.CLEAN.code();
  }
}
