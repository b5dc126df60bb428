package org.intercusp.rules;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.intercusp.finding.Caution;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Finding;
import org.intercusp.finding.Severity;
import org.intercusp.treatment.Acceptance;

/** An examination for a person: findings by weight with what to do, then a table of figures. */
public final class ExaminationText {

  private static final int WIDTH = 100;
  private static final int LONGEST = 30;
  private static final List<String> HEAD =
      List.of("Figure", "Of", "Value", "Unit", "Usual", "Source");

  /** The whole as text with line ends. */
  public String write(Examination examination) {
    StringBuilder out = new StringBuilder();
    line(out, "Treatment %s on %s".formatted(examination.treatment(), examination.on()));
    line(out, verdict(examination));
    for (Severity severity : Severity.values()) {
      findings(out, examination, severity);
    }
    figures(out, examination.figures());
    line(out, "");
    line(out, Caution.TEXT);
    return out.toString();
  }

  private static String verdict(Examination examination) {
    String go = examination.mayGo() ? "May be delivered" : "May not be delivered yet";
    String order =
        examination.mayOrderAppliance() ? "" : "; no further appliance may be ordered yet";
    return go + harm(examination) + order + ".";
  }

  /** Harm holds nothing back, but the errors beside it do. */
  private static String harm(Examination examination) {
    if (!examination.urgent()) {
      return "";
    }
    if (!examination.harmUnanswered()) {
      return "; signs of harm have been answered";
    }
    return examination.mayGo()
        ? "; URGENT: signs of harm, deliver at once"
        : "; URGENT: signs of harm, settle the errors and then deliver at once";
  }

  private static void findings(StringBuilder out, Examination examination, Severity severity) {
    List<Judged> of =
        examination.findings().stream()
            .filter(judged -> judged.finding().severity() == severity)
            .toList();
    if (of.isEmpty()) {
      return;
    }
    line(out, "");
    line(out, severity.code().toUpperCase(Locale.ROOT) + " (" + of.size() + ")");
    of.forEach(judged -> finding(out, judged));
  }

  private static void finding(StringBuilder out, Judged judged) {
    Finding finding = judged.finding();
    line(out, "  %s, %s, %s".formatted(finding.code(), finding.subject(), finding.pointer()));
    wrapped(out, finding.message());
    wrapped(out, "Do: " + finding.remedy());
    wrapped(out, "Limit from: " + finding.source().shown());
    Acceptance acceptance = judged.acceptance();
    if (acceptance != null) {
      wrapped(
          out,
          "Accepted by %s on %s: %s"
              .formatted(acceptance.by().family(), acceptance.on(), acceptance.reason()));
    }
  }

  private static void figures(StringBuilder out, List<Figure> figures) {
    if (figures.isEmpty()) {
      return;
    }
    line(out, "");
    List<List<String>> rows = new ArrayList<>();
    rows.add(HEAD);
    figures.forEach(figure -> rows.add(row(figure)));
    int[] widths = new int[HEAD.size()];
    for (List<String> row : rows) {
      for (int i = 0; i < widths.length; i++) {
        widths[i] = Math.max(widths[i], row.get(i).length());
      }
    }
    for (int r = 0; r < rows.size(); r++) {
      StringBuilder row = new StringBuilder();
      for (int i = 0; i < widths.length; i++) {
        row.append(padded(rows.get(r).get(i), i == widths.length - 1 ? 0 : widths[i] + 2));
      }
      line(out, row.toString());
      if (r > 0) {
        below(out, figures.get(r - 1));
      }
    }
  }

  /** What is too long for a column, and the note. */
  private static void below(StringBuilder out, Figure figure) {
    String value = value(figure);
    if (value.length() > LONGEST) {
      line(out, "    " + value);
    }
    if (figure.usual() != null && figure.usual().length() > LONGEST) {
      line(out, "    usual: " + figure.usual());
    }
    if (figure.note() != null) {
      line(out, "    " + figure.note());
    }
  }

  private static List<String> row(Figure figure) {
    return List.of(
        figure.name(),
        figure.subject(),
        column(value(figure)),
        figure.unit() == null ? "" : figure.unit().shown(),
        figure.usual() == null ? "" : column(figure.usual()),
        figure.source().shown());
  }

  private static String value(Figure figure) {
    return figure.value() == null ? "-" : figure.value().shown();
  }

  private static String column(String text) {
    return text.length() > LONGEST ? "below" : text;
  }

  private static String padded(String text, int width) {
    return text + " ".repeat(Math.max(0, width - text.length()));
  }

  private static void wrapped(StringBuilder out, String text) {
    StringBuilder line = new StringBuilder("   ");
    for (String word : text.split(" ", -1)) {
      if (line.length() + word.length() >= WIDTH) {
        line(out, line.toString());
        line = new StringBuilder("   ");
      }
      line.append(' ').append(word);
    }
    line(out, line.toString());
  }

  private static void line(StringBuilder out, String text) {
    out.append(text.stripTrailing()).append('\n');
  }
}
