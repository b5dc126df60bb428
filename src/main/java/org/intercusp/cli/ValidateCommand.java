package org.intercusp.cli;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.concurrent.Callable;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.OutcomeText;
import org.intercusp.treatment.Lines;
import org.intercusp.treatment.Lines.Line;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Judges FHIR resources and Bundles by FHIR, our profiles and the trade's rules, offline. */
@Command(
    name = "validate",
    mixinStandardHelpOptions = true,
    description = "validates FHIR resources or Bundles (JSON, XML, NDJSON)")
@Component
final class ValidateCommand implements Callable<Integer> {

  /** How issues are printed. */
  enum Shown {
    text,
    fhir
  }

  @Parameters(arity = "1..*", paramLabel = "FILE", description = "FHIR files; - is stdin")
  List<Input> files = List.of();

  @Option(names = "--format", description = "${COMPLETION-CANDIDATES}", defaultValue = "text")
  Shown format = Shown.text;

  @Mixin Day day = new Day();

  private final ObjectProvider<Conformance> conformance;
  private final ObjectProvider<OutcomeText> outcomes;
  private final Console console;

  ValidateCommand(
      ObjectProvider<Conformance> conformance,
      ObjectProvider<OutcomeText> outcomes,
      Console console) {
    this.conformance = conformance;
    this.outcomes = outcomes;
    this.console = console;
  }

  @Override
  public Integer call() {
    ExitCode worst = ExitCode.CLEAN;
    for (Input file : files) {
      worst = worst.or(validate(file));
    }
    return worst.code();
  }

  private ExitCode validate(Input file) {
    try (InputStream bytes = file.open()) {
      Lines lines = new Lines(bytes);
      if (file.name().endsWith(".ndjson") || lines.isOneTextALine()) {
        return validateEach(file, lines);
      }
      return validate(file.toString(), lines.rest(), 1);
    } catch (IOException | UncheckedIOException e) {
      console.say(file + ": cannot be opened");
      return ExitCode.UNREADABLE;
    }
  }

  /** A document a line; one that is alone is the file itself. */
  private ExitCode validateEach(Input file, Lines lines) {
    ExitCode worst = ExitCode.CLEAN;
    boolean alone = true;
    Line line = lines.next();
    while (line != null) {
      Line next = lines.next();
      alone &= next == null;
      String where = alone ? file.toString() : file + ", line " + line.number();
      worst = worst.or(validate(where, line.bytes(), Math.toIntExact(line.number())));
      line = next;
    }
    return worst;
  }

  private ExitCode validate(String where, byte[] content, int line) {
    Conformance judge = conformance.getObject();
    List<Issue> issues =
        (day.on == null ? judge : judge.on(day.on))
            .validate(content, format(content)).stream().map(issue -> issue.inLine(line)).toList();
    if (format == Shown.fhir) {
      console.result(outcomes.getObject().ofIssues(issues));
    } else {
      console.result(where + ": " + (issues.isEmpty() ? "clean" : issues.size() + " issue(s)"));
      issues.forEach(issue -> console.result(shown(issue)));
    }
    boolean unreadable = issues.stream().anyMatch(issue -> issue.weight().code().equals("fatal"));
    boolean stops = issues.stream().anyMatch(issue -> issue.weight().stops());
    return unreadable ? ExitCode.UNREADABLE : stops ? ExitCode.FINDINGS : ExitCode.CLEAN;
  }

  private static String shown(Issue issue) {
    StringBuilder out = new StringBuilder("  " + issue.weight().code() + " " + issue.rule());
    if (issue.line() != null) {
      out.append(" at line ").append(issue.line()).append(", column ").append(issue.column());
    }
    if (issue.expression() != null) {
      out.append(" in ").append(issue.expression());
    }
    return out.append("\n    ").append(issue.text()).toString();
  }

  /** XML begins with an angle bracket, after white space or a byte order mark. */
  private static Format format(byte[] content) {
    for (byte each : content) {
      if (each == '<') {
        return Format.XML;
      }
      if (each == '{') {
        return Format.JSON;
      }
    }
    return Format.JSON;
  }
}
