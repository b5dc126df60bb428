package org.intercusp.registry.report.form;

import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import org.intercusp.registry.report.Figure;
import org.intercusp.registry.report.Report;

/** The report as CSV (RFC 4180), a figure a line; no text can act as a formula in a spreadsheet. */
public final class ReportCsv {

  private static final String FORMULA_STARTS = "=+-@\t\r";

  private ReportCsv() {}

  public static String write(Report report) {
    StringBuilder csv = new StringBuilder();
    line(
        csv,
        List.of(
            "measure",
            "dimension",
            "group",
            "statistic",
            "unit",
            "value",
            "absent",
            "cut_off",
            "title",
            "definition",
            "source"));
    for (Figure figure : report.figures()) {
      line(
          csv,
          List.of(
              text(figure.measure().code()),
              text(figure.slice().dimension().code()),
              text(figure.slice().member()),
              text(figure.statistic().code()),
              text(figure.statistic().unit()),
              figure.value() == null ? "" : Digits.text(figure.value()),
              text(Objects.requireNonNullElse(figure.absent(), "")),
              report.question().cutOff().toString(),
              text(figure.statistic().title()),
              text(figure.measure().definition()),
              text(figure.measure().source().shown())));
    }
    return csv.toString();
  }

  private static void line(StringBuilder csv, List<String> cells) {
    csv.append(cells.stream().map(ReportCsv::quoted).collect(Collectors.joining(",")))
        .append("\r\n");
  }

  /** A leading apostrophe keeps a spreadsheet from reading text as a formula. */
  static String text(String text) {
    return !text.isEmpty() && FORMULA_STARTS.indexOf(text.charAt(0)) >= 0 ? "'" + text : text;
  }

  private static String quoted(String cell) {
    return cell.chars().anyMatch(c -> c == ',' || c == '"' || c == '\n' || c == '\r')
        ? '"' + cell.replace("\"", "\"\"") + '"'
        : cell;
  }
}
