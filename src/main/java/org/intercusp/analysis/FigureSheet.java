package org.intercusp.analysis;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.intercusp.finding.Figure;
import org.intercusp.finding.Source;
import org.intercusp.finding.Value;
import org.intercusp.measure.Unit;
import org.jspecify.annotations.Nullable;

/** Collects the figures of one subject; an absent result becomes a figure whose note says why. */
public final class FigureSheet {

  private final String subject;
  private final List<Figure> figures = new ArrayList<>();

  /**
   * An empty sheet.
   *
   * @param subject id of the element the figures are computed from
   */
  public FigureSheet(String subject) {
    this.subject = subject;
  }

  /** Adds a number, rounded half up to so many places for a person; comparisons never use it. */
  public FigureSheet number(
      String name, Reckoned<BigDecimal> result, int places, Unit unit, Context context) {
    return add(
        name, result.map(n -> Value.of(n.setScale(places, RoundingMode.HALF_UP))), unit, context);
  }

  /** Adds a count or a score. */
  public FigureSheet whole(String name, Reckoned<Integer> result, Unit unit, Context context) {
    return number(name, result.map(BigDecimal::valueOf), 0, unit, context);
  }

  /** Adds words: a code, a class, a stage. */
  public FigureSheet words(String name, Reckoned<String> result, Context context) {
    return add(name, result.map(Value::of), null, context);
  }

  private FigureSheet add(
      String name, Reckoned<Value> result, @Nullable Unit unit, Context context) {
    @Nullable Value value = result.result().orElse(null);
    @Nullable String note = value == null ? result.reason() : context.note();
    figures.add(new Figure(name, subject, value, unit, context.usual(), context.source(), note));
    return this;
  }

  /** How a standard uncertainty is told in a note. */
  public static String uncertain(double uncertainty, Unit unit) {
    return "standard uncertainty " + unit.behind(rounded(uncertainty));
  }

  /** A number in a note, rounded half up to a hundredth. */
  public static String rounded(double number) {
    return BigDecimal.valueOf(number).setScale(2, RoundingMode.HALF_UP).toPlainString();
  }

  public List<Figure> figures() {
    return List.copyOf(figures);
  }

  /**
   * What stands beside a figure.
   *
   * @param usual the usual range in words
   * @param note assumptions; replaced by the reason when the figure is absent
   */
  public record Context(@Nullable String usual, Source source, @Nullable String note) {

    public static Context of(Source source) {
      return new Context(null, source, null);
    }

    public Context usually(@Nullable String range) {
      return new Context(range, source, note);
    }

    public Context noting(@Nullable String text) {
      return new Context(usual, source, text);
    }
  }
}
