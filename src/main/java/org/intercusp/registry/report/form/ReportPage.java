package org.intercusp.registry.report.form;

import static org.intercusp.registry.report.form.Svg.escaped;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.intercusp.finding.Caution;
import org.intercusp.registry.report.Dimension;
import org.intercusp.registry.report.Figure;
import org.intercusp.registry.report.Measure;
import org.intercusp.registry.report.Report;
import org.intercusp.registry.report.Statistic;
import org.jspecify.annotations.Nullable;

/**
 * The report as a page: for each measure its definition, source, charts and tables. Numbers stand
 * in {@code data} elements with all their digits; nothing in it needs script or styles of its own.
 */
public final class ReportPage {

  /** So many columns fit on paper; a wider table is laid out in parts. */
  private static final int COLUMNS = 12;

  private static final String HIDDEN_TOO =
      ", and with them what would give them away; charts show what is not hidden.";

  private ReportPage() {}

  /** The page's content, to be set into a frame. */
  public static String content(Report report) {
    StringBuilder html =
        new StringBuilder(
            "<section id=\"report\" class=\"registry\"><h1>Registry report</h1><p>Cut-off ");
    html.append(report.question().cutOff()).append(". ").append(report.question().hiding());
    html.append(report.question().threshold() == 1 ? "." : HIDDEN_TOO);
    html.append(
        " Intervals are 95 %. Invented or submitted data; figures support a clinician's judgement and do not replace it.</p>");
    html.append("<nav aria-label=\"Measures\"><ul>");
    for (Measure measure : Measure.values()) {
      html.append("<li><a href=\"#")
          .append(measure.code())
          .append("\">")
          .append(escaped(measure.title()))
          .append("</a></li>");
    }
    html.append("</ul></nav>");
    for (Measure measure : Measure.values()) {
      measure(html, report, measure);
    }
    return html.append("</section>").toString();
  }

  private static void measure(StringBuilder html, Report report, Measure measure) {
    html.append("<section id=\"")
        .append(measure.code())
        .append("\"><h2>")
        .append(escaped(measure.title()))
        .append("</h2><p>");
    html.append(escaped(measure.definition()))
        .append("</p><p class=\"source\">Source: ")
        .append(escaped(measure.source().shown()))
        .append("</p>");
    if (report.of(measure).isEmpty()) {
      html.append("<p>No case.</p>");
    }
    for (String chart : new ReportCharts(report).of(measure)) {
      // On a phone a chart is wider than the page and is moved, by keys as well.
      html.append("<figure tabindex=\"0\">").append(chart).append("</figure>");
    }
    for (Dimension dimension : report.dimensions(measure)) {
      table(html, report, measure, dimension);
    }
    html.append("</section>");
  }

  private static void table(
      StringBuilder html, Report report, Measure measure, Dimension dimension) {
    List<Statistic> statistics = report.statistics(measure, dimension);
    Map<String, Map<String, Figure>> rows = new LinkedHashMap<>();
    for (Figure figure : report.of(measure)) {
      if (figure.slice().dimension() == dimension) {
        rows.computeIfAbsent(figure.slice().member(), fresh -> new LinkedHashMap<>())
            .put(figure.statistic().code(), figure);
      }
    }
    html.append("<details")
        .append(dimension == Dimension.ALL || measure == Measure.LENGTH_CURVE ? " open" : "")
        .append("><summary>");
    html.append(escaped(dimension.shown())).append("</summary>");
    for (int from = 0; from < statistics.size(); from += COLUMNS) {
      List<Statistic> some = statistics.subList(from, Math.min(from + COLUMNS, statistics.size()));
      String part = statistics.size() <= COLUMNS ? "" : ", part " + (from / COLUMNS + 1);
      part(html, measure, dimension, part, some, rows);
    }
    html.append("</details>");
  }

  private static void part(
      StringBuilder html,
      Measure measure,
      Dimension dimension,
      String part,
      List<Statistic> statistics,
      Map<String, Map<String, Figure>> rows) {
    html.append("<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"")
        .append(escaped(measure.title() + ", " + dimension.shown() + part))
        .append("\"><table data-measure=\"")
        .append(measure.code());
    html.append("\" data-dimension=\"")
        .append(dimension.code())
        .append("\"><thead><tr><th scope=\"col\">")
        .append(escaped(dimension.shown()))
        .append("</th>");
    for (Statistic statistic : statistics) {
      html.append("<th scope=\"col\" data-statistic=\"")
          .append(statistic.code())
          .append("\">")
          .append(escaped(statistic.title()));
      html.append("<span class=\"unit\"> ")
          .append(escaped(Units.shown(statistic.unit())))
          .append("</span></th>");
    }
    html.append("</tr></thead><tbody>");
    rows.forEach(
        (member, figures) -> {
          html.append("<tr><th scope=\"row\">").append(escaped(member)).append("</th>");
          statistics.forEach(
              statistic ->
                  html.append("<td>").append(cell(figures.get(statistic.code()))).append("</td>"));
          html.append("</tr>");
        });
    html.append("</tbody></table></div>");
  }

  private static String cell(@Nullable Figure figure) {
    if (figure == null) {
      return "";
    }
    return figure.value() == null
        ? "<span class=\"absent\">" + escaped(String.valueOf(figure.absent())) + "</span>"
        : "<data value=\""
            + Digits.text(figure.value())
            + "\">"
            + Digits.shown(figure.value())
            + "</data>";
  }

  /** A whole document that needs nothing beside it, for a file. */
  public static String document(Report report) {
    return "<!DOCTYPE html><html lang=\"en\"><head><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"><title>Registry report - Intercusp</title><style>"
        + style("site.css")
        + style("registry.css")
        + "</style></head><body><main id=\"content\">"
        + content(report)
        + "</main><footer><p>"
        + Caution.TEXT
        + "</p></footer></body></html>";
  }

  private static String style(String name) {
    try (InputStream in = ReportPage.class.getResourceAsStream("/static/" + name)) {
      return new String(Objects.requireNonNull(in, name).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException fault) {
      throw new UncheckedIOException(fault);
    }
  }
}
