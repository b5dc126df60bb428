package org.intercusp.cli;

import java.nio.file.Files;
import java.util.concurrent.Callable;
import org.intercusp.registry.intake.OutcomeIntake;
import org.intercusp.registry.intake.RegistryPlace;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;

/** Adds a key to the pseudonyms and lays it over all that is stored. */
@Command(
    name = "rotate-key",
    mixinStandardHelpOptions = true,
    description = "adds a new key and hashes every stored pseudonym with it")
@Component
final class OutcomesKeysCommand implements Callable<Integer> {

  private final OutcomeIntake intake;
  private final RegistryPlace place;
  private final Console console;

  OutcomesKeysCommand(OutcomeIntake intake, RegistryPlace place, Console console) {
    this.intake = intake;
    this.place = place;
    this.console = console;
  }

  @Override
  public Integer call() {
    // It would make an empty registry there, with keys of its own.
    if (Files.notExists(place.root())) {
      console.say(OutcomesCommand.NONE);
      return ExitCode.UNREADABLE.code();
    }
    console.result("The key " + intake.rotateKey() + " is the last one laid on now.");
    return ExitCode.CLEAN.code();
  }
}
