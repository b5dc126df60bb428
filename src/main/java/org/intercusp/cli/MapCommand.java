package org.intercusp.cli;

import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.intercusp.fhir.BundleForm;
import org.intercusp.fhir.TreatmentText;
import org.intercusp.fhir.version.Release;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.treatment.Treatment;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Prints the FHIR Bundle of a treatment file. */
@Command(
    name = "map",
    mixinStandardHelpOptions = true,
    description = "prints the FHIR Bundle of a treatment file")
@Component
final class MapCommand implements Callable<Integer> {

  /** How it is written. */
  enum Format {
    json,
    xml
  }

  /** What it is for. */
  enum As {
    transaction,
    document,
    collection
  }

  @Parameters(paramLabel = "FILE", description = "a treatment file, or records as CSV; - is stdin")
  Input file = new Input("-");

  @Option(names = "--format", description = "${COMPLETION-CANDIDATES}", defaultValue = "json")
  Format format = Format.json;

  @Option(names = "--as", description = "${COMPLETION-CANDIDATES}", defaultValue = "transaction")
  As as = As.transaction;

  @Option(names = "--fhir", description = "version of FHIR: 4.0, 4.3 or 5.0", defaultValue = "4.0")
  String version = "4.0";

  @Mixin Day day = new Day();

  @Mixin Sheets.Told told = new Sheets.Told();

  private final TreatmentFile reader;
  private final Sheets sheets;
  private final Examiner examiner;
  private final ObjectProvider<TreatmentText> mapper;
  private final Clock clock;
  private final Console console;

  MapCommand(
      TreatmentFile reader,
      Sheets sheets,
      Examiner examiner,
      ObjectProvider<TreatmentText> mapper,
      Clock clock,
      Console console) {
    this.reader = reader;
    this.sheets = sheets;
    this.examiner = examiner;
    this.mapper = mapper;
    this.clock = clock;
    this.console = console;
  }

  @Override
  public Integer call() {
    Optional<Release> release = Release.of(version);
    if (release.isEmpty()) {
      console.say("--fhir " + version + ": expected 4.0, 4.3 or 5.0");
      return ExitCode.UNREADABLE.code();
    }
    if (!sheets.fits(told, List.of(file))) {
      return ExitCode.UNREADABLE.code();
    }
    Optional<Treatment> read = told.isSheet(file) ? sheets.one(file, told) : reader.read(file);
    if (read.isEmpty()) {
      return ExitCode.UNREADABLE.code();
    }
    Treatment treatment = read.get();
    LocalDate on = day.of(treatment, clock);
    Examination examination = examiner.examine(treatment, on);
    console.result(
        mapper
            .getObject()
            .write(
                treatment,
                on,
                examination.plainFindings(),
                BundleForm.valueOf(as.name().toUpperCase(Locale.ROOT)),
                TreatmentText.Format.valueOf(format.name().toUpperCase(Locale.ROOT)),
                release.get()));
    return (examination.mayGo() ? ExitCode.CLEAN : ExitCode.FINDINGS).code();
  }
}
