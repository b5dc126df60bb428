package org.intercusp.web.pages.entry;

import java.math.BigDecimal;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Value;
import org.intercusp.measure.Unit;
import org.intercusp.rules.Examination;
import org.intercusp.treatment.Bite;
import org.intercusp.treatment.Treatment;
import org.intercusp.web.pages.FigureView;
import org.intercusp.web.pages.entry.LiveView.Line;
import org.jspecify.annotations.Nullable;

/** The figures an entry brings or changes, in lines. */
final class Figures {

  private static final String SHARE = "share-of-path";

  private Figures() {}

  static List<Line> of(
      Sheet sheet,
      Treatment before,
      Treatment after,
      Examination now,
      Examination then,
      Set<String> missing) {
    if (sheet.list().equals("bites")) {
      return ofBite(before, after, then, missing);
    }
    return missing.isEmpty() ? changed(now, then) : List.of();
  }

  private static List<Line> ofBite(
      Treatment before, Treatment after, Examination then, Set<String> missing) {
    Set<String> old = before.bites().stream().map(Bite::id).collect(Collectors.toSet());
    Set<String> own =
        after.bites().stream()
            .map(Bite::id)
            .filter(id -> !old.contains(id))
            .collect(Collectors.toSet());
    return then.figures().stream()
        .filter(figure -> own.contains(figure.subject()))
        .filter(figure -> FigureNeeds.freeOf(missing, figure.name()))
        .map(figure -> line(figure, usual(figure)))
        .toList();
  }

  private static List<Line> changed(Examination now, Examination then) {
    Map<String, Figure> known =
        now.figures().stream()
            .collect(Collectors.toMap(Figures::key, Function.identity(), (a, b) -> a));
    return then.figures().stream()
        .filter(figure -> figure.value() != null)
        .filter(figure -> !sameValue(figure, known.get(key(figure))))
        .map(figure -> line(figure, was(known.get(key(figure)))))
        .toList();
  }

  private static String key(Figure figure) {
    return figure.name() + "|" + figure.subject();
  }

  private static boolean sameValue(Figure figure, @Nullable Figure other) {
    return other != null && value(figure).equals(value(other));
  }

  private static String was(@Nullable Figure before) {
    return before == null || before.value() == null ? "" : "was " + value(before);
  }

  private static Line line(Figure figure, String usual) {
    String note = figure.note();
    String name = figure.name().replace('-', ' ');
    return new Line(name, value(figure), usual, note == null ? "" : note);
  }

  private static String usual(Figure figure) {
    String usual = figure.usual();
    if (usual == null) {
      return "";
    }
    return figure.name().equals(SHARE) ? percent(usual) : usual;
  }

  /** A share is read in per cent. */
  private static String value(Figure figure) {
    if (figure.unit() == Unit.SHARE && figure.value() instanceof Value.Numeric share) {
      return percent(share.number());
    }
    return FigureView.shown(figure);
  }

  private static String percent(BigDecimal share) {
    return share.movePointRight(2).stripTrailingZeros().toPlainString() + " %";
  }

  private static String percent(String usual) {
    String number = usual.replaceAll("[^0-9.]", "");
    return number.isEmpty() ? usual : usual.replace(number, percent(new BigDecimal(number)));
  }

  /** Path and share in a sentence. */
  static String said(List<Line> lines) {
    return lines.stream()
        .filter(line -> line.name().equals("path") || line.name().equals("share of path"))
        .map(line -> line.name() + " " + line.value())
        .collect(Collectors.joining(", "));
  }
}
