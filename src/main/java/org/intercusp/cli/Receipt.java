package org.intercusp.cli;

import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.exchange.records.DeliveryReport;
import org.intercusp.exchange.records.DeliveryResult;

/** What a records server made of a delivery, for a person. */
final class Receipt {

  private final Console console;

  Receipt(Console console) {
    this.console = console;
  }

  ExitCode print(String to, DeliveryResult result) {
    if (result instanceof DeliveryResult.Delivered delivered) {
      delivered(to, delivered.report());
      return ExitCode.CLEAN;
    }
    if (result instanceof DeliveryResult.Failed failed) {
      failed(to, failed);
    } else if (result instanceof DeliveryResult.Conflicting conflicting) {
      console.say("Not delivered to " + to + ": changed there and by the clinic since.");
      conflicting.differences().forEach(this::difference);
    }
    return ExitCode.NOT_DELIVERED;
  }

  private void delivered(String to, DeliveryReport report) {
    String counts =
        Stream.of(DeliveryReport.Outcome.values())
            .filter(outcome -> report.count(outcome) > 0)
            .map(outcome -> report.count(outcome) + " " + outcome.code())
            .collect(Collectors.joining(", "));
    console.result("Delivered to " + to + ": " + counts);
    for (DeliveryReport.Entry entry : report.entries()) {
      String place = entry.id() == null ? "" : entry.type() + "/" + entry.id();
      String version = entry.version() == null ? "" : " version " + entry.version();
      console.result("  %-10s %s%s".formatted(entry.outcome().code(), place, version));
    }
    if (!report.differences().isEmpty()) {
      console.result("Stored otherwise than sent:");
      report.differences().forEach(this::difference);
    }
    report
        .duplicates()
        .forEach(
            twice ->
                console.result(
                    "  %s %s is there more than once: %s"
                        .formatted(twice.type(), twice.value(), twice.ids())));
  }

  private void failed(String to, DeliveryResult.Failed failed) {
    console.say("Not delivered to " + to + ": " + failed.reason());
    if (!failed.words().isBlank()) {
      console.say("  The server said: " + failed.words());
    }
    if (!failed.written().isEmpty()) {
      console.say("  Written before it ended: " + String.join(", ", failed.written()));
    }
  }

  private void difference(DeliveryReport.Difference difference) {
    console.result(
        "  %s at %s: sent %s, stored %s"
            .formatted(
                difference.type(), difference.path(), difference.sent(), difference.stored()));
  }
}
