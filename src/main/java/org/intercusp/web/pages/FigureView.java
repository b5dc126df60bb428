package org.intercusp.web.pages;

import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;

/** A figure in the words of a page. */
public record FigureView(Figure figure) {

  public String name() {
    String words = figure.name().replace('-', ' ');
    return words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1);
  }

  public String shown() {
    return shown(figure);
  }

  /** The value with its unit, or that it is not known. */
  public static String shown(Figure figure) {
    Value value = figure.value();
    return value == null ? "not known" : value.shown(figure.unit());
  }

  /** Whether the value is a number, which is set in a column of numbers and never broken. */
  public boolean numeric() {
    return figure.value() instanceof Value.Numeric;
  }

  public boolean known() {
    return figure.value() != null;
  }

  public String usual() {
    String usual = figure.usual();
    return usual == null ? "" : usual;
  }

  /** What is missing or assumed. */
  public String note() {
    String note = figure.note();
    return note == null ? "" : note;
  }

  public String remark() {
    return Stream.of(figure.source().shown(), note())
        .filter(words -> !words.isBlank())
        .collect(Collectors.joining("; "));
  }
}
