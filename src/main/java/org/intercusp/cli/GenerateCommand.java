package org.intercusp.cli;

import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.intercusp.scenario.OutcomeGenerator;
import org.intercusp.scenario.TreatmentGenerator;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentWriter;
import org.intercusp.treatment.submission.Submission;
import org.intercusp.treatment.submission.SubmissionWriter;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/**
 * Prints invented treatment files or outcome records, realistic in their spread, the same for the
 * same seed.
 */
@Command(
    name = "generate",
    mixinStandardHelpOptions = true,
    description = "prints invented treatment files, or outcome records, as NDJSON")
@Component
final class GenerateCommand implements Callable<Integer> {

  @Option(names = "--treatments", required = true, paramLabel = "N", description = "how many")
  int treatments;

  @Option(names = "--seed", defaultValue = "1", paramLabel = "S", description = "1 if not given")
  long seed = 1;

  /** What is generated. */
  enum Kind {
    treatments,
    outcomes
  }

  @Option(names = "--as", defaultValue = "treatments", description = "${COMPLETION-CANDIDATES}")
  Kind kind = Kind.treatments;

  private final TreatmentWriter writer;
  private final Console console;

  GenerateCommand(TreatmentWriter writer, Console console) {
    this.writer = writer;
    this.console = console;
  }

  @Override
  public Integer call() {
    if (treatments < 0) {
      console.say("--treatments is not negative");
      return ExitCode.UNREADABLE.code();
    }
    if (kind == Kind.outcomes) {
      outcomes();
      return ExitCode.CLEAN.code();
    }
    try (Stream<Treatment> all = new TreatmentGenerator().treatments(treatments, seed)) {
      all.forEach(treatment -> console.result(writer.write(treatment)));
    }
    return ExitCode.CLEAN.code();
  }

  private void outcomes() {
    SubmissionWriter outcome = new SubmissionWriter();
    try (Stream<Submission> all = new OutcomeGenerator().records(treatments, seed)) {
      all.forEach(record -> console.result(outcome.write(record)));
    }
  }
}
