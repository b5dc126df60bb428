package org.intercusp.cli;

import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.concurrent.Callable;
import org.intercusp.fhir.Canonicals;
import org.intercusp.registry.report.DuckRows;
import org.intercusp.registry.report.ReportQuestion;
import org.intercusp.registry.report.Reports;
import org.intercusp.registry.report.form.ReportForm;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Reports what the registry holds. */
@Command(
    name = "report",
    mixinStandardHelpOptions = true,
    description = "reports what the registry holds, small counts hidden")
@Component
final class OutcomesReportCommand implements Callable<Integer> {

  @Option(names = "--format", defaultValue = "text", description = "${COMPLETION-CANDIDATES}")
  ReportForm format = ReportForm.TEXT;

  @Option(
      names = "--data",
      paramLabel = "DIR",
      description = "directory of the Parquet files; the registry's own if not given")
  @Nullable Path data;

  @Option(names = "--cut-off", paramLabel = "DATE", description = "today if not given")
  @Nullable LocalDate cutOff;

  @Option(
      names = "--hide-below",
      paramLabel = "N",
      defaultValue = "5",
      description = "hides counts of 1 to N - 1; 5 if not given")
  int threshold = ReportQuestion.USUAL_THRESHOLD;

  private final Reports reports;
  private final Canonicals canonicals;
  private final Clock clock;
  private final Console console;

  OutcomesReportCommand(Reports reports, Canonicals canonicals, Clock clock, Console console) {
    this.reports = reports;
    this.canonicals = canonicals;
    this.clock = clock;
    this.console = console;
  }

  @Override
  public Integer call() {
    Reports asked = data == null ? reports : reports.at(data);
    LocalDate until = cutOff == null ? LocalDate.now(clock) : cutOff;
    try {
      console.bytes(format.write(asked.of(new ReportQuestion(until, threshold)), canonicals));
      return ExitCode.CLEAN.code();
    } catch (DuckRows.NoSuchRows none) {
      console.say("No outcomes there: load some first, or name their directory with --data.");
      return ExitCode.UNREADABLE.code();
    }
  }
}
