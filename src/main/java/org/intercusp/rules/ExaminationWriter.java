package org.intercusp.rules;

import java.util.List;
import java.util.TreeMap;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Value;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Acceptance;
import org.intercusp.treatment.sheet.SheetFault;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.StreamWriteFeature;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.JsonNodeFactory;
import tools.jackson.databind.node.ObjectNode;

/**
 * An examination as JSON, described by {@code schema/examination-1.json}: the treatment's id, its
 * figures and its findings. Numbers are JSON numbers, units UCUM codes.
 */
public final class ExaminationWriter {

  private static final JsonNodeFactory NODES = JsonNodeFactory.instance;

  private final JsonMapper json =
      JsonMapper.builder()
          .enable(StreamWriteFeature.WRITE_BIGDECIMAL_AS_PLAIN)
          .enable(SerializationFeature.INDENT_OUTPUT)
          .build();

  /** The whole as indented text. */
  public String text(Examination examination) {
    return json.writeValueAsString(write(examination));
  }

  /** The whole. */
  public ObjectNode write(Examination examination) {
    ObjectNode root = NODES.objectNode();
    root.put("treatment", examination.treatment());
    root.set("figures", figures(examination));
    root.set("findings", findings(examination));
    return root;
  }

  /** The same root for a file that could not be read: no treatment, no figures, the faults. */
  public ObjectNode refusal(List<Finding> faults) {
    ObjectNode root = NODES.objectNode();
    root.putNull("treatment");
    root.putArray("figures");
    root.set("findings", faults(faults));
    return root;
  }

  /** The same root for the rows of a sheet that were refused. */
  public ObjectNode refusedRows(List<SheetFault> faults) {
    ObjectNode root = refusal(List.of());
    root.set("findings", rows(faults));
    return root;
  }

  /** The figures alone. */
  public ArrayNode figures(Examination examination) {
    ArrayNode list = NODES.arrayNode();
    examination.figures().forEach(figure -> list.add(figure(figure)));
    return list;
  }

  /** The findings alone, each with the acceptance that counts for it. */
  public ArrayNode findings(Examination examination) {
    ArrayNode list = NODES.arrayNode();
    for (Judged judged : examination.findings()) {
      ObjectNode node = finding(judged.finding());
      Acceptance acceptance = judged.acceptance();
      if (acceptance != null) {
        node.set("acceptance", acceptance(acceptance));
      }
      list.add(node);
    }
    return list;
  }

  /** Findings that no rule made: what a reader refused. */
  public ArrayNode faults(List<Finding> faults) {
    ArrayNode list = NODES.arrayNode();
    faults.forEach(fault -> list.add(finding(fault)));
    return list;
  }

  /** Rows of a sheet that were refused: findings with the place of their cell. */
  public ArrayNode rows(List<SheetFault> faults) {
    ArrayNode list = NODES.arrayNode();
    for (SheetFault fault : faults) {
      ObjectNode node = finding(fault.finding());
      node.putObject("cell")
          .put("line", fault.line())
          .put("column", fault.column())
          .put("name", fault.name());
      list.add(node);
    }
    return list;
  }

  private static ObjectNode figure(Figure figure) {
    ObjectNode node = NODES.objectNode();
    node.put("name", figure.name());
    node.put("subject", figure.subject());
    node.set("value", value(figure.value()));
    node.put("unit", unit(figure.unit()));
    if (figure.usual() != null) {
      node.put("usual", figure.usual());
    }
    node.put("source", figure.source().shown());
    if (figure.note() != null) {
      node.put("note", figure.note());
    }
    return node;
  }

  private static ObjectNode finding(Finding finding) {
    ObjectNode node = NODES.objectNode();
    node.put("code", finding.code());
    node.put("severity", finding.severity().code());
    node.put("pointer", finding.pointer().text());
    node.put("subject", finding.subject());
    node.set("value", value(finding.value()));
    node.set("limit", value(finding.limit()));
    node.put("unit", unit(finding.unit()));
    node.put("message", finding.message());
    node.put("remedy", finding.remedy());
    node.put("source", finding.source().shown());
    ObjectNode values = node.putObject("values");
    new TreeMap<>(finding.values()).forEach((name, number) -> values.put(name, number.value()));
    return node;
  }

  private static ObjectNode acceptance(Acceptance acceptance) {
    ObjectNode node = NODES.objectNode();
    node.put("reason", acceptance.reason());
    ObjectNode by = node.putObject("by");
    by.putObject("identifier")
        .put("system", acceptance.by().identifier().system())
        .put("value", acceptance.by().identifier().value());
    by.put("family", acceptance.by().family());
    node.put("on", acceptance.on().toString());
    return node;
  }

  private static JsonNode value(@Nullable Value value) {
    if (value instanceof Value.Numeric numeric) {
      return NODES.numberNode(numeric.number());
    }
    return value == null ? NODES.nullNode() : NODES.stringNode(value.shown());
  }

  private static @Nullable String unit(@Nullable Unit unit) {
    return unit == null ? null : unit.ucum();
  }
}
