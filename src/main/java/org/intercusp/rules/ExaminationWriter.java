package org.intercusp.rules;

import java.util.List;
import java.util.Map;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Value;
import org.intercusp.measure.Decimal;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Acceptance;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * Writes figures and findings as JSON, the same objects at every door: {@code {treatment,
 * figures[], findings[]}}. Numbers are written plainly, without exponents.
 */
public final class ExaminationWriter {

  private final JsonMapper json = JsonMapper.builder().build();

  /** The whole examination. */
  public ObjectNode write(Examination examination) {
    ObjectNode root = json.createObjectNode();
    root.put("treatment", examination.treatment());
    root.set("figures", figures(examination));
    root.set("findings", findings(examination));
    return root;
  }

  /** The figures alone. */
  public ArrayNode figures(Examination examination) {
    ArrayNode figures = json.createArrayNode();
    examination.figures().forEach(figure -> figures.add(figure(figure)));
    return figures;
  }

  /** The findings alone. */
  public ArrayNode findings(Examination examination) {
    ArrayNode findings = json.createArrayNode();
    for (Judged judged : examination.findings()) {
      ObjectNode node = finding(judged.finding());
      Acceptance acceptance = judged.acceptance();
      if (acceptance != null) {
        node.set("acceptance", acceptance(acceptance));
      }
      findings.add(node);
    }
    return findings;
  }

  /** Findings of a file that could not be read. */
  public ArrayNode faults(List<Finding> faults) {
    ArrayNode findings = json.createArrayNode();
    faults.forEach(fault -> findings.add(finding(fault)));
    return findings;
  }

  private ObjectNode figure(Figure figure) {
    ObjectNode node = json.createObjectNode();
    node.put("name", figure.name());
    node.put("subject", figure.subject());
    put(node, "value", figure.value());
    put(node, figure.unit());
    text(node, "usual", figure.usual());
    node.put("source", figure.source().shown());
    text(node, "note", figure.note());
    return node;
  }

  private ObjectNode finding(Finding finding) {
    ObjectNode node = json.createObjectNode();
    node.put("code", finding.code());
    node.put("severity", finding.severity().code());
    node.put("pointer", finding.pointer().text());
    node.put("subject", finding.subject());
    put(node, "value", finding.value());
    put(node, "limit", finding.limit());
    put(node, finding.unit());
    node.put("message", finding.message());
    node.put("remedy", finding.remedy());
    node.put("source", finding.source().shown());
    if (!finding.values().isEmpty()) {
      node.set("values", values(finding.values()));
    }
    return node;
  }

  private ObjectNode values(Map<String, Decimal> values) {
    ObjectNode node = json.createObjectNode();
    values.forEach((name, number) -> node.put(name, number.value()));
    return node;
  }

  private ObjectNode acceptance(Acceptance acceptance) {
    ObjectNode node = json.createObjectNode();
    node.put("reason", acceptance.reason());
    node.put("by", acceptance.by().family());
    node.put("on", acceptance.on().toString());
    return node;
  }

  private static void put(ObjectNode node, String member, @Nullable Value value) {
    if (value instanceof Value.Numeric numeric) {
      node.put(member, numeric.number());
    } else if (value instanceof Value.Text text) {
      node.put(member, text.text());
    } else {
      node.putNull(member);
    }
  }

  private static void put(ObjectNode node, @Nullable Unit unit) {
    if (unit == null) {
      node.putNull("unit");
    } else {
      node.put("unit", unit.ucum());
    }
  }

  private static void text(ObjectNode node, String member, @Nullable String text) {
    if (text != null) {
      node.put(member, text);
    }
  }
}
