package org.intercusp.registry.report.form;

import org.intercusp.finding.Caution;
import org.intercusp.registry.report.Dimension;
import org.intercusp.registry.report.Figure;
import org.intercusp.registry.report.Measure;
import org.intercusp.registry.report.Report;
import org.intercusp.registry.report.Slice;
import org.jspecify.annotations.Nullable;

/** The report for a person at a terminal. */
public final class ReportText {

  private ReportText() {}

  public static String write(Report report) {
    StringBuilder text = new StringBuilder();
    text.append("Registry report, cut-off ").append(report.question().cutOff());
    text.append(". ").append(report.question().hiding()).append(".\n");
    for (Measure measure : Measure.values()) {
      text.append('\n').append(measure.title()).append("\n  ");
      text.append(measure.definition())
          .append("\n  Source: ")
          .append(measure.source().shown())
          .append('\n');
      @Nullable Slice last = null;
      for (Figure figure : report.of(measure)) {
        if (!figure.slice().equals(last)) {
          last = figure.slice();
          text.append("  ").append(name(last)).append('\n');
        }
        text.append("    ")
            .append(figure.statistic().title())
            .append(": ")
            .append(shown(figure))
            .append('\n');
      }
    }
    return text.append('\n').append(Caution.TEXT).append('\n').toString();
  }

  static String name(Slice slice) {
    return slice.dimension() == Dimension.ALL
        ? slice.dimension().shown()
        : slice.dimension().shown() + ": " + slice.member();
  }

  private static String shown(Figure figure) {
    if (figure.value() == null) {
      return String.valueOf(figure.absent());
    }
    String unit = figure.statistic().unit();
    return Digits.shown(figure.value())
        + (unit.equals("1") || unit.startsWith("{") ? "" : " " + unit);
  }
}
