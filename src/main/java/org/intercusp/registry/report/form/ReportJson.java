package org.intercusp.registry.report.form;

import org.intercusp.registry.report.Figure;
import org.intercusp.registry.report.Measure;
import org.intercusp.registry.report.Report;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** The report as JSON, by the published schema {@code registry-report-1.json}. */
final class ReportJson {

  public static final String FORMAT = "intercusp-registry-report/1";

  private static final JsonMapper JSON = JsonMapper.builder().build();

  private ReportJson() {}

  public static byte[] write(Report report) {
    ObjectNode root = JSON.createObjectNode();
    root.put("format", FORMAT);
    root.put("cutOff", report.question().cutOff().toString());
    root.put("threshold", report.question().threshold());
    ArrayNode measures = root.putArray("measures");
    for (Measure measure : Measure.values()) {
      ObjectNode one = measures.addObject();
      one.put("code", measure.code());
      one.put("title", measure.title());
      one.put("definition", measure.definition());
      one.put("source", measure.source().shown());
      ArrayNode figures = one.putArray("figures");
      report.of(measure).forEach(figure -> figure(figures.addObject(), figure));
    }
    return JSON.writerWithDefaultPrettyPrinter().writeValueAsBytes(root);
  }

  private static void figure(ObjectNode into, Figure figure) {
    into.put("dimension", figure.slice().dimension().code());
    into.put("group", figure.slice().member());
    into.put("statistic", figure.statistic().code());
    into.put("title", figure.statistic().title());
    into.put("unit", figure.statistic().unit());
    if (figure.value() != null) {
      into.put("value", Digits.exact(figure.value()));
    } else {
      into.put("absent", figure.absent());
    }
  }
}
