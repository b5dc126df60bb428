package org.intercusp.web.api;

import java.time.Instant;
import java.util.List;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.exchange.proposal.Proposal;
import org.intercusp.exchange.proposal.Proposal.Change;
import org.intercusp.exchange.proposal.Proposals;
import org.intercusp.exchange.records.Beyond;
import org.intercusp.exchange.records.Origin;
import org.intercusp.rules.Examination;
import org.intercusp.rules.ExaminationWriter;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/** Proposals as JSON. */
@Component
class ProposalAnswers {

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private final ExaminationWriter writer = new ExaminationWriter();
  private final Answers answers;

  ProposalAnswers(Answers answers) {
    this.answers = answers;
  }

  byte[] list(List<Proposal> proposals, StoredTreatment current) {
    ArrayNode list = NODES.arrayNode();
    proposals.forEach(one -> list.add(node(one, current)));
    return answers.bytes(list);
  }

  /** One that was decided, with figures and findings of the version that it made. */
  byte[] decided(Proposal one, StoredTreatment newest, @Nullable Examination examination) {
    ObjectNode root = examination == null ? NODES.objectNode() : writer.write(examination);
    root.set("proposal", node(one, newest));
    return answers.bytes(root);
  }

  private static ObjectNode node(Proposal one, StoredTreatment current) {
    ObjectNode node = NODES.objectNode();
    node.put("number", one.number());
    node.put("from", one.recipient());
    node.put("kind", one.kind().code());
    node.put("state", one.state().code());
    node.put("subject", one.subject());
    node.put("deliveredVersion", one.base());
    node.put("foundAt", one.foundAt().toString());
    time(node, "decidedAt", one.decidedAt());
    text(node, "decidedBy", one.decidedBy());
    if (one.made() != null) {
      node.put("madeVersion", one.made());
    }
    text(node, "reason", one.reason());
    ArrayNode changes = node.putArray("changes");
    one.content().changes().forEach(change -> changes.add(node(change, current)));
    ArrayNode beyond = node.putArray("beyond");
    for (Beyond each : one.content().beyond()) {
      text(beyond.addObject().put("path", each.path()), "value", each.value());
    }
    ArrayNode origins = node.putArray("origins");
    one.content().origins().forEach(origin -> origins.add(node(origin)));
    return node;
  }

  private static ObjectNode node(Change change, StoredTreatment current) {
    ObjectNode node = NODES.objectNode().put("path", change.path());
    if (change.before() != null) {
      node.set("delivered", change.before());
    }
    Proposals.at(current, change.path()).ifPresent(now -> node.set("now", now));
    if (change.after() != null) {
      node.set("theirs", change.after());
    }
    ArrayNode lacking = node.putArray("lacking");
    change.lacking().forEach(lacking::add);
    return node;
  }

  private static ObjectNode node(Origin origin) {
    ObjectNode node = NODES.objectNode().put("address", origin.address());
    text(node, "version", origin.version());
    time(node, "changedAt", origin.changedAt());
    text(node, "by", origin.by());
    return node;
  }

  private static void text(ObjectNode node, String member, String text) {
    if (!text.isEmpty()) {
      node.put(member, text);
    }
  }

  private static void time(ObjectNode node, String member, @Nullable Instant instant) {
    if (instant != null) {
      node.put(member, instant.toString());
    }
  }
}
