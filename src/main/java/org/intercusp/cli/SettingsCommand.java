package org.intercusp.cli;

import java.io.IOException;
import java.io.InputStream;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Prints what can be set, or what to know before an upgrade. */
@Command(
    name = "settings",
    mixinStandardHelpOptions = true,
    description = "prints every setting with its kind, its default and what it means")
@Component
final class SettingsCommand implements Callable<Integer> {

  @Option(names = "--upgrading", description = "prints what to know before an upgrade instead")
  boolean upgrading;

  private final Console console;

  SettingsCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() throws IOException {
    String name = upgrading ? "/settings/upgrading.md" : "/settings/reference.md";
    try (InputStream in = SettingsCommand.class.getResourceAsStream(name)) {
      console.bytes(Objects.requireNonNull(in).readAllBytes());
    }
    return ExitCode.CLEAN.code();
  }
}
