package org.intercusp.cli;

import java.util.Optional;
import java.util.concurrent.Callable;
import org.intercusp.exchange.recipient.Recipients;
import org.intercusp.exchange.records.Retrieval;
import org.intercusp.exchange.records.Retrieval.Found;
import org.intercusp.fhir.ReadBack;
import org.intercusp.treatment.Identifier;
import org.intercusp.treatment.Treatment;
import org.intercusp.treatment.TreatmentWriter;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.stereotype.Component;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Reads a patient's treatments back from a records server. */
@Command(
    name = "fetch",
    mixinStandardHelpOptions = true,
    description = "reads a patient's treatments back and prints treatment files, one a line")
@Component
final class FetchCommand implements Callable<Integer> {

  @Option(names = "--from", required = true, paramLabel = "NAME|URL", description = "the server")
  String from = "";

  @Option(
      names = "--patient",
      required = true,
      paramLabel = "SYSTEM|VALUE",
      description = "the patient's identifier")
  String patient = "";

  private final ObjectProvider<Retrieval> retrieval;
  private final TreatmentWriter writer;
  private final Recipients recipients;
  private final Console console;

  FetchCommand(
      ObjectProvider<Retrieval> retrieval,
      TreatmentWriter writer,
      Recipients recipients,
      Console console) {
    this.retrieval = retrieval;
    this.writer = writer;
    this.recipients = recipients;
    this.console = console;
  }

  @Override
  public Integer call() {
    Optional<Identifier> identifier = Identifier.parse(patient);
    if (identifier.isEmpty()) {
      console.say("--patient is written SYSTEM|VALUE");
      return ExitCode.UNREADABLE.code();
    }
    Found found =
        retrieval.getObject().fetch(Address.of(from, null, recipients).target(), identifier.get());
    return print(found).code();
  }

  private ExitCode print(Found found) {
    if (found instanceof Found.NotReached failed) {
      console.say("Not reached: " + failed.reason());
      return ExitCode.NOT_DELIVERED;
    }
    ExitCode worst = found instanceof Found.Treatments all ? whole(all) : ExitCode.CLEAN;
    if (found instanceof Found.Treatments treatments && !treatments.treatments().isEmpty()) {
      for (ReadBack one : treatments.treatments()) {
        worst = worst.or(print(one));
      }
      return worst;
    }
    console.say(
        found instanceof Found.Treatments
            ? "The patient has no treatment there."
            : "There is no such patient there.");
    return ExitCode.FINDINGS;
  }

  private ExitCode whole(Found.Treatments found) {
    if (found.forbidden().isEmpty()) {
      return ExitCode.CLEAN;
    }
    console.say(
        "Not allowed to read there, so it is missing here whether or not they have it: "
            + String.join(", ", found.forbidden()));
    return ExitCode.FINDINGS;
  }

  private ExitCode print(ReadBack one) {
    one.unplaced()
        .forEach(stray -> console.say("No place for " + stray.expression() + ": " + stray.value()));
    Treatment treatment = one.treatment();
    if (treatment == null) {
      console.say(Faults.shown("what is stored there", one.faults()));
      return ExitCode.UNREADABLE;
    }
    console.result(writer.write(treatment));
    return ExitCode.CLEAN;
  }
}
