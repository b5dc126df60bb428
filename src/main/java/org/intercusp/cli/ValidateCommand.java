package org.intercusp.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.Callable;
import org.intercusp.conformance.Conformance;
import org.intercusp.conformance.Format;
import org.intercusp.conformance.Issue;
import org.intercusp.conformance.OutcomeText;
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

  /** Far above what the guard takes, so that the guard says what is wrong: 64 MiB. */
  private static final int LIMIT = 64 << 20;

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
    byte[] content;
    try {
      content = file.read(LIMIT);
    } catch (IOException e) {
      console.say(file + ": cannot be opened");
      return ExitCode.UNREADABLE;
    }
    if (!file.name().endsWith(".ndjson")) {
      return validate(file.toString(), content);
    }
    ExitCode worst = ExitCode.CLEAN;
    int number = 0;
    for (String line : new String(content, StandardCharsets.UTF_8).lines().toList()) {
      number++;
      if (!line.isBlank()) {
        byte[] one = line.getBytes(StandardCharsets.UTF_8);
        worst = worst.or(validate(file + ", line " + number, one));
      }
    }
    return worst;
  }

  private ExitCode validate(String where, byte[] content) {
    Conformance judge = conformance.getObject();
    List<Issue> issues =
        (day.on == null ? judge : judge.on(day.on)).validate(content, format(content));
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
