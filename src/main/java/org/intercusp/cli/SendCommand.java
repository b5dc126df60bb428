package org.intercusp.cli;

import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.intercusp.conformance.Issue;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.Dispatch;
import org.intercusp.finding.Finding;
import org.intercusp.rules.ConsentGate;
import org.intercusp.rules.Examination;
import org.intercusp.rules.Examiner;
import org.intercusp.rules.Judged;
import org.intercusp.treatment.ConsentScope;
import org.intercusp.treatment.Treatment;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Delivers a treatment file to a records server and waits for the answer. */
@Command(
    name = "send",
    mixinStandardHelpOptions = true,
    description = "maps, validates, delivers, waits, prints what the server stored")
@Component
final class SendCommand implements Callable<Integer> {

  @Parameters(paramLabel = "FILE", description = "a treatment file; - is stdin")
  Input file = new Input("-");

  @Option(names = "--to", required = true, paramLabel = "NAME|URL", description = "the recipient")
  String to = "";

  @Option(
      names = "--scope",
      description = "what the consent must cover, for a URL: " + Words.SCOPES)
  @Nullable ConsentScope scope;

  @Option(names = "--dry-run", description = "stops before the wire")
  boolean dryRun;

  @Mixin Day day = new Day();

  private final TreatmentFile reader;
  private final Examiner examiner;
  private final ObjectProvider<Dispatch> dispatch;
  private final Recipients recipients;
  private final Clock clock;
  private final Console console;
  private final ConsentGate consent = new ConsentGate();

  SendCommand(
      TreatmentFile reader,
      Examiner examiner,
      ObjectProvider<Dispatch> dispatch,
      Recipients recipients,
      Clock clock,
      Console console) {
    this.reader = reader;
    this.examiner = examiner;
    this.dispatch = dispatch;
    this.recipients = recipients;
    this.clock = clock;
    this.console = console;
  }

  @Override
  public Integer call() {
    Address address = Address.of(to, scope, recipients);
    return reader
        .read(file)
        .map(treatment -> send(treatment, address))
        .orElse(ExitCode.UNREADABLE)
        .code();
  }

  private ExitCode send(Treatment treatment, Address address) {
    LocalDate on = day.of(treatment, clock);
    Examination examination = examiner.examine(treatment, on);
    Optional<Finding> withheld = consent.check(treatment, address.scope(), day.ofSending(clock));
    List<Finding> findings = examination.plainFindings();
    if (withheld.isPresent() || !examination.mayGo()) {
      console.say("Nothing was sent.");
      withheld.ifPresent(this::say);
      examination.findings().stream().filter(Judged::stops).map(Judged::finding).forEach(this::say);
      return ExitCode.FINDINGS;
    }
    List<Issue> stopping =
        dispatch.getObject().issues(treatment, on, findings).stream()
            .filter(issue -> issue.weight().stops())
            .toList();
    if (!stopping.isEmpty()) {
      console.say("Nothing was sent: the Bundle does not conform, which is a failure of ours.");
      stopping.forEach(issue -> console.say("  " + issue.expression() + ": " + issue.text()));
      return ExitCode.OUR_FAULT;
    }
    if (dryRun) {
      console.result("Would be sent to " + address.name() + "; nothing was.");
      return ExitCode.CLEAN;
    }
    return new Receipt(console)
        .print(
            address.name(), dispatch.getObject().send(address.target(), treatment, on, findings));
  }

  private void say(Finding finding) {
    console.say("  " + finding.severity().code() + " " + finding.code());
    console.say("    " + finding.message());
    console.say("    What to do: " + finding.remedy());
  }
}
