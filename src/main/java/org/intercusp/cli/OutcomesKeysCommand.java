package org.intercusp.cli;

import java.util.concurrent.Callable;
import org.intercusp.registry.intake.OutcomeIntake;
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
  private final Console console;

  OutcomesKeysCommand(OutcomeIntake intake, Console console) {
    this.intake = intake;
    this.console = console;
  }

  @Override
  public Integer call() {
    console.result("The key " + intake.rotateKey() + " is the last one laid on now.");
    return ExitCode.CLEAN.code();
  }
}
