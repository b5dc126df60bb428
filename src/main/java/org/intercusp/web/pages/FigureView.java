package org.intercusp.web.pages;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.measure.Unit;
import org.intercusp.rules.Examination;

/** A figure in the words of a page. */
public record FigureView(Figure figure) {

  static List<FigureView> of(Examination examination) {
    return examination.figures().stream().map(FigureView::new).toList();
  }

  public String name() {
    return figure.name().replace('-', ' ');
  }

  public String subject() {
    return figure.subject();
  }

  public String shown() {
    Value value = figure.value();
    Unit unit = figure.unit();
    if (value == null) {
      return "not known";
    }
    return unit == null ? value.shown() : (value.shown() + " " + unit.shown()).strip();
  }

  /** Whether the value is a number, which is set in a column of numbers and never broken. */
  public boolean numeric() {
    return figure.value() instanceof Value.Numeric;
  }

  public String usual() {
    String usual = figure.usual();
    return usual == null ? "" : usual;
  }

  public String remark() {
    return Stream.of(figure.source().shown(), figure.note() == null ? "" : figure.note())
        .filter(words -> !words.isBlank())
        .collect(Collectors.joining("; "));
  }
}
