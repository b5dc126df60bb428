package org.intercusp.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.intercusp.conformance.OutcomeText;
import org.intercusp.finding.Finding;
import org.intercusp.rules.Examination;
import org.intercusp.rules.ExaminationText;
import org.intercusp.rules.ExaminationWriter;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.ReadLine;
import org.intercusp.treatment.ReadResult;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentReader;
import org.intercusp.treatment.sheet.SheetFault;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Prints what is computed from treatment files and what is found in them. */
@Command(
    name = "check",
    mixinStandardHelpOptions = true,
    description = "reads treatment files, prints figures and findings")
@Component
final class CheckCommand implements Callable<Integer> {

  /** How it is printed. */
  enum Format {
    text,
    json,
    fhir
  }

  @Parameters(
      arity = "1..*",
      paramLabel = "FILE",
      description = "treatment files, or records as CSV; - is stdin")
  List<Input> files = List.of();

  @Option(names = "--format", description = "${COMPLETION-CANDIDATES}", defaultValue = "text")
  Format format = Format.text;

  @Mixin Day day = new Day();

  @Mixin Sheets.Told told = new Sheets.Told();

  private final TreatmentReader reader;
  private final Sheets sheets;
  private final Examiner examiner;
  private final Clock clock;
  private final Console console;
  private final ExaminationWriter json = new ExaminationWriter();
  private final JsonLines lines = new JsonLines();
  private final ExaminationText text = new ExaminationText();
  private final ObjectProvider<OutcomeText> fhir;

  CheckCommand(
      TreatmentReader reader,
      Sheets sheets,
      Examiner examiner,
      ObjectProvider<OutcomeText> fhir,
      Clock clock,
      Console console) {
    this.reader = reader;
    this.sheets = sheets;
    this.examiner = examiner;
    this.fhir = fhir;
    this.clock = clock;
    this.console = console;
  }

  @Override
  public Integer call() {
    if (!sheets.fits(told, files)) {
      return ExitCode.UNREADABLE.code();
    }
    ExitCode worst = ExitCode.CLEAN;
    for (Input file : files) {
      worst = worst.or(told.isSheet(file) ? checkSheet(file) : check(file));
    }
    return worst.code();
  }

  private ExitCode check(Input file) {
    Progress progress = new Progress(console);
    ExitCode[] worst = {ExitCode.CLEAN};
    try (InputStream bytes = file.open();
        Stream<ReadLine> lines = reader.readFile(bytes)) {
      lines.forEach(
          line -> {
            worst[0] = worst[0].or(check(file, line));
            progress.step();
          });
    } catch (IOException | UncheckedIOException e) {
      console.say(file + ": cannot be opened");
      return ExitCode.UNREADABLE;
    }
    progress.end();
    return worst[0];
  }

  private ExitCode check(Input file, ReadLine line) {
    if (line.result() instanceof ReadResult.Refused refused) {
      refuse(line.line() > 1 ? file + ", line " + line.line() : file.toString(), refused.faults());
      return ExitCode.UNREADABLE;
    }
    return check(((ReadResult.Accepted) line.result()).treatment());
  }

  private ExitCode checkSheet(Input file) {
    try {
      Sheets.Read read = sheets.read(file, told.into);
      ExitCode worst = read.faults().isEmpty() ? ExitCode.CLEAN : ExitCode.UNREADABLE;
      for (Treatment treatment : read.treatments()) {
        worst = worst.or(check(treatment));
      }
      refuseRows(Sheets.shown(file.toString(), read), read.faults());
      return worst;
    } catch (IOException | UncheckedIOException e) {
      console.say(Sheets.unopened(file, told, e));
      return ExitCode.UNREADABLE;
    }
  }

  /** Rows refused are said where findings are, and counted on standard error. */
  private void refuseRows(String shown, List<SheetFault> faults) {
    console.say(shown);
    if (faults.isEmpty()) {
      return;
    }
    switch (format) {
      case text -> {}
      case json -> console.result(lines.write(json.refusedRows(faults)));
      case fhir ->
          console.result(
              fhir.getObject().ofFindings(faults.stream().map(SheetFault::finding).toList()));
    }
  }

  private ExitCode check(Treatment treatment) {
    Examination examination = examiner.examine(treatment, day.of(treatment, clock));
    switch (format) {
      case text -> console.result(text.write(examination));
      case json -> console.result(lines.write(json.write(examination)));
      case fhir -> console.result(fhir.getObject().ofFindings(examination.plainFindings()));
    }
    return examination.mayGo() ? ExitCode.CLEAN : ExitCode.FINDINGS;
  }

  private void refuse(String where, List<Finding> faults) {
    switch (format) {
      case text -> console.say(Faults.shown(where, faults));
      case json -> console.result(lines.write(json.refusal(faults)));
      case fhir -> console.result(fhir.getObject().ofFindings(faults));
    }
  }
}
