package org.intercusp.web.api;

import java.time.Instant;
import java.util.List;
import org.intercusp.exchange.queue.Attempt;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.recipient.Recipient;
import org.intercusp.exchange.records.DeliveryReport;
import org.intercusp.exchange.records.RecordsClient.Reachability;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Deliveries and recipients as JSON. */
@Component
class DeliveryAnswers {

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private final Answers answers;

  DeliveryAnswers(Answers answers) {
    this.answers = answers;
  }

  byte[] list(List<Delivery> deliveries) {
    ArrayNode list = NODES.arrayNode();
    deliveries.forEach(delivery -> list.add(node(delivery)));
    return answers.bytes(list);
  }

  byte[] whole(Delivery delivery, List<Attempt> attempts) {
    ObjectNode node = node(delivery);
    ArrayNode list = node.putArray("tries");
    attempts.forEach(attempt -> list.add(node(attempt)));
    return answers.bytes(node);
  }

  /** Recipients, each with what became of asking it, in the same order. */
  byte[] recipients(List<Recipient> recipients, List<Reachability> asked) {
    ArrayNode list = NODES.arrayNode();
    for (int i = 0; i < recipients.size(); i++) {
      Recipient recipient = recipients.get(i);
      Reachability reached = asked.get(i);
      list.addObject()
          .put("name", recipient.name())
          .put("title", recipient.title())
          .put("url", recipient.target().baseUrl().toString())
          .put("scope", recipient.scope().code())
          .put("reached", reached.reached())
          .put("answer", reached.words());
    }
    return answers.bytes(list);
  }

  private static ObjectNode node(Delivery delivery) {
    ObjectNode node = NODES.objectNode();
    node.put("id", delivery.id());
    node.put("treatment", delivery.treatment().treatment());
    node.putObject("clinic")
        .put("system", delivery.treatment().clinic().system())
        .put("value", delivery.treatment().clinic().value());
    node.put("version", delivery.version());
    node.put("to", delivery.recipient());
    node.put("state", delivery.state().code());
    node.put("reason", delivery.reason());
    node.put("queuedAt", delivery.queuedAt().toString());
    node.put("changedAt", delivery.changedAt().toString());
    time(node, "dueAt", delivery.dueAt());
    node.put("attempts", delivery.attempts());
    return node;
  }

  private static ObjectNode node(Attempt attempt) {
    ObjectNode node = NODES.objectNode();
    node.put("number", attempt.number());
    node.put("startedAt", attempt.startedAt().toString());
    time(node, "endedAt", attempt.endedAt());
    node.put("outcome", attempt.outcome().code());
    node.put("reason", attempt.reason());
    node.put("status", attempt.status());
    node.put("words", attempt.words());
    DeliveryReport report = attempt.report();
    if (report != null) {
      node.set("report", node(report));
    }
    return node;
  }

  private static ObjectNode node(DeliveryReport report) {
    ObjectNode node = NODES.objectNode();
    node.put("server", report.server());
    ObjectNode counts = node.putObject("counts");
    for (DeliveryReport.Outcome outcome : DeliveryReport.Outcome.values()) {
      counts.put(outcome.code(), report.count(outcome));
    }
    ArrayNode entries = node.putArray("entries");
    for (DeliveryReport.Entry entry : report.entries()) {
      entries
          .addObject()
          .put("type", entry.type())
          .put("identifier", entry.system() + "|" + entry.value())
          .put("id", entry.id())
          .put("version", entry.version())
          .put("outcome", entry.outcome().code());
    }
    ArrayNode differences = node.putArray("differences");
    for (DeliveryReport.Difference difference : report.differences()) {
      differences
          .addObject()
          .put("type", difference.type())
          .put("identifier", difference.system() + "|" + difference.value())
          .put("path", difference.path())
          .put("sent", difference.sent())
          .put("stored", difference.stored());
    }
    ArrayNode duplicates = node.putArray("duplicates");
    for (DeliveryReport.Duplicate duplicate : report.duplicates()) {
      ObjectNode twice =
          duplicates
              .addObject()
              .put("type", duplicate.type())
              .put("identifier", duplicate.system() + "|" + duplicate.value());
      ArrayNode ids = twice.putArray("ids");
      duplicate.ids().forEach(ids::add);
    }
    return node;
  }

  private static void time(ObjectNode node, String member, @Nullable Instant instant) {
    if (instant != null) {
      node.put(member, instant.toString());
    }
  }
}
