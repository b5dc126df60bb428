package org.intercusp.web.api;

import java.util.List;
import org.apache.commons.codec.digest.DigestUtils;
import org.intercusp.archive.Page;
import org.intercusp.archive.StoredTreatment;
import org.intercusp.archive.TreatmentKey;
import org.intercusp.exchange.queue.Delivery;
import org.intercusp.exchange.queue.Queueing;
import org.intercusp.rules.Examination;
import org.intercusp.rules.ExaminationWriter;
import org.springframework.stereotype.Component;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** What the door answers, as JSON. */
@Component
class Answers {

  private final ExaminationWriter writer = new ExaminationWriter();
  private final JsonMapper json =
      JsonMapper.builder().enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN).build();

  byte[] examination(Examination examination) {
    return bytes(writer.write(examination));
  }

  /** What was taken: figures and findings, and what became of each delivery asked for. */
  byte[] filed(Examination examination, List<Queueing> deliveries) {
    ObjectNode root = writer.write(examination);
    if (!deliveries.isEmpty()) {
      ArrayNode all = root.putArray("deliveries");
      deliveries.forEach(one -> queueing(one, all.addObject()));
    }
    return bytes(root);
  }

  private void queueing(Queueing queueing, ObjectNode node) {
    if (queueing instanceof Queueing.Queued queued) {
      delivery(queued.delivery(), node);
    } else if (queueing instanceof Queueing.Existing existing) {
      delivery(existing.delivery(), node);
    } else if (queueing instanceof Queueing.Stopped stopped) {
      node.put("to", stopped.recipient()).put("state", "stopped");
      node.set("findings", writer.faults(stopped.findings()));
    }
  }

  private static void delivery(Delivery delivery, ObjectNode node) {
    node.put("to", delivery.recipient())
        .put("state", delivery.state().code())
        .put("delivery", "/deliveries/" + delivery.id());
  }

  byte[] figures(Examination examination) {
    return bytes(writer.figures(examination));
  }

  byte[] findings(Examination examination) {
    return bytes(writer.findings(examination));
  }

  byte[] problem(Problem problem) {
    return bytes(node(problem));
  }

  ObjectNode node(Problem problem) {
    ObjectNode node = json.createObjectNode();
    node.put("type", "about:blank");
    node.put("title", problem.title());
    node.put("status", problem.status().value());
    node.put("detail", problem.getMessage());
    node.set("findings", writer.faults(problem.findings()));
    return node;
  }

  byte[] list(Page page) {
    ObjectNode root = json.createObjectNode();
    root.put("total", page.total());
    ArrayNode treatments = root.putArray("treatments");
    page.treatments().forEach(stored -> treatments.add(summary(stored)));
    TreatmentKey next = page.next();
    if (next != null) {
      root.put("next", Cursor.write(next));
    }
    return bytes(root);
  }

  byte[] history(List<StoredTreatment> versions) {
    ArrayNode all = json.createArrayNode();
    versions.forEach(stored -> all.add(summary(stored)));
    return bytes(all);
  }

  private ObjectNode summary(StoredTreatment stored) {
    ObjectNode node = json.createObjectNode();
    node.put("treatment", stored.key().treatment());
    node.putObject("clinic")
        .put("system", stored.key().clinic().system())
        .put("value", stored.key().clinic().value());
    node.put("version", stored.version());
    node.put("receivedAt", stored.receivedAt().toString());
    node.put("digest", stored.digest());
    return node;
  }

  byte[] bytes(JsonNode node) {
    return json.writeValueAsBytes(node);
  }

  /**
   * The entity tag of what is made of a version and of more than it, such as the day or what came
   * back: its number, which {@code If-Match} takes, and a digest of what is answered.
   */
  static String tag(StoredTreatment stored, byte[] answer) {
    return "\"" + stored.version() + "-" + DigestUtils.sha256Hex(answer).substring(0, 16) + "\"";
  }

  /** The entity tag of a version. */
  static String tag(StoredTreatment stored) {
    return "\"" + stored.version() + "\"";
  }
}
