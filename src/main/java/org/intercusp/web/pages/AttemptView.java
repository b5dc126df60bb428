package org.intercusp.web.pages;

import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.intercusp.exchange.queue.Attempt;
import org.intercusp.exchange.records.DeliveryReport;

/**
 * One try of a delivery in words.
 *
 * @param counts what became of the resources
 * @param entries each resource with its number at the recipient
 * @param differences what the recipient keeps otherwise than it was sent
 */
public record AttemptView(
    Attempt attempt,
    String when,
    String outcome,
    List<String> counts,
    List<DeliveryReport.Entry> entries,
    List<DeliveryReport.Difference> differences) {

  static AttemptView of(Attempt attempt) {
    DeliveryReport report = attempt.report();
    Instant ended = attempt.endedAt();
    String when = DeliveryView.time(attempt.startedAt());
    return new AttemptView(
        attempt,
        ended == null ? when : when + " to " + DeliveryView.time(ended),
        Trade.words(attempt.outcome().code()),
        report == null ? List.of() : counts(report),
        report == null ? List.of() : report.entries(),
        report == null ? List.of() : report.differences());
  }

  private static List<String> counts(DeliveryReport report) {
    return Stream.of(DeliveryReport.Outcome.values())
        .filter(each -> report.count(each) > 0)
        .map(each -> report.count(each) + " " + Trade.words(each.code()))
        .toList();
  }
}
