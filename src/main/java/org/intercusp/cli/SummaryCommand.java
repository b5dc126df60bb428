package org.intercusp.cli;

import java.time.Clock;
import java.time.LocalDate;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.summary.Audience;
import org.intercusp.summary.Form;
import org.intercusp.summary.Summaries;
import org.intercusp.treatment.Treatment;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Writes the document that dentist, laboratory or patient read. */
@Component
@Command(
    name = "summary",
    mixinStandardHelpOptions = true,
    description = "writes the document for dentist, laboratory or patient")
final class SummaryCommand implements Callable<Integer> {

  /** The form it takes. */
  enum Format {
    html,
    pdf,
    fhir
  }

  @Parameters(paramLabel = "FILE", description = "a treatment file; - is stdin")
  Input file = new Input("-");

  @Option(names = "--for", required = true, description = Words.AUDIENCES)
  Audience audience = Audience.DENTIST;

  @Option(names = "--format", description = "${COMPLETION-CANDIDATES}", defaultValue = "html")
  Format format = Format.html;

  @Option(names = "--language", description = "of the patient's sheet: en, de", defaultValue = "en")
  Locale language = Locale.ENGLISH;

  @Mixin Day day = new Day();

  private final TreatmentFile reader;
  private final Examiner examiner;
  private final ObjectProvider<Summaries> summaries;
  private final Clock clock;
  private final Console console;

  SummaryCommand(
      TreatmentFile reader,
      Examiner examiner,
      ObjectProvider<Summaries> summaries,
      Clock clock,
      Console console) {
    this.reader = reader;
    this.examiner = examiner;
    this.summaries = summaries;
    this.clock = clock;
    this.console = console;
  }

  @Override
  public Integer call() {
    if (!Summaries.areIn(language, audience)) {
      console.say(
          "--language %s: the patient's document alone is in German too; the dentist's and the laboratory's are in English"
              .formatted(language.toLanguageTag()));
      return ExitCode.UNREADABLE.code();
    }
    Optional<Treatment> read = reader.read(file);
    if (read.isEmpty()) {
      return ExitCode.UNREADABLE.code();
    }
    Treatment treatment = read.get();
    LocalDate on = day.of(treatment, clock);
    Examination examination = examiner.examine(treatment, on);
    console.bytes(document(treatment, on, examination));
    return (examination.mayGo() ? ExitCode.CLEAN : ExitCode.FINDINGS).code();
  }

  private byte[] document(Treatment treatment, LocalDate on, Examination examination) {
    Form form =
        switch (format) {
          case html -> Form.HTML;
          case pdf -> Form.PDF;
          case fhir -> Form.FHIR;
        };
    return summaries.getObject().render(treatment, examination, on, audience, form, language);
  }
}
