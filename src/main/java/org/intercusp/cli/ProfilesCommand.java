package org.intercusp.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.intercusp.conformance.PackageWriter;
import org.intercusp.fhir.Canonicals;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Writes the FHIR package as recipients of this deployment install it. */
@Command(
    name = "profiles",
    mixinStandardHelpOptions = true,
    description =
        "writes the FHIR package (profiles, code systems, value sets, concept maps) under the"
            + " canonical base that is set, for the records servers that are delivered to")
@Component
final class ProfilesCommand implements Callable<Integer> {

  @Option(names = "--to", required = true, paramLabel = "FILE", description = "a new .tgz file")
  Path to = Path.of("");

  private final Console console;
  private final Canonicals canonicals;

  ProfilesCommand(Console console, Canonicals canonicals) {
    this.console = console;
    this.canonicals = canonicals;
  }

  @Override
  public Integer call() {
    NewFile file = new NewFile(to);
    Optional<String> obstacle = file.obstacle();
    if (obstacle.isPresent()) {
      console.say("No package: " + obstacle.get());
      return ExitCode.UNREADABLE.code();
    }
    try {
      byte[] written = PackageWriter.under(canonicals);
      file.write(written);
      console.result("%s: %s, %,d bytes".formatted(to, canonicals.base(), written.length));
      return ExitCode.CLEAN.code();
    } catch (IOException e) {
      console.say("No package: " + Words.of(e));
      return ExitCode.OUR_FAULT.code();
    }
  }
}
