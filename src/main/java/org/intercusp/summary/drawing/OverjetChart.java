package org.intercusp.summary.drawing;

import static org.intercusp.summary.drawing.BiteDrawing.mm;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javax.xml.stream.XMLStreamException;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.progress.OverjetCourse;
import org.intercusp.analysis.progress.OverjetGoal;
import org.intercusp.analysis.progress.Progress;
import org.intercusp.analysis.stage.ActivePhase;
import org.intercusp.measure.Length;
import org.intercusp.treatment.Treatment;

/**
 * Overjet over time: what was measured, the fitted rate of the active stage with its 95 % interval,
 * the goal, and the day on which the line reaches it where the interval allows one to be projected.
 * What was measured in later stages is drawn hollow and not fitted.
 */
public final class OverjetChart {

  private static final double WIDTH = 160;
  private static final double HEIGHT = 74;
  private static final double LEFT = 16;
  private static final double RIGHT = 152;
  private static final double TOP = 12;
  private static final double BOTTOM = 58;

  /** As much room as a number takes at most. */
  private static final String WIDEST = "99.9";

  private final Progress progress;
  private final List<Progress.Point> later;
  private final boolean over;
  private final Optional<OverjetGoal> goal;
  private final Optional<LocalDate> projected;
  private final String promise;
  private final LocalDate on;
  private final DateAxis axis;
  private final FreePlace place = new FreePlace();
  private final FreePlace today = new FreePlace();
  private final double low;
  private final double high;

  private OverjetChart(Treatment treatment, Progress progress, LocalDate on) {
    this.progress = progress;
    List<Progress.Point> points = progress.points();
    later = LaterOverjets.of(treatment, points.get(points.size() - 1).day(), on);
    over = ActivePhase.on(treatment, on).result().isEmpty();
    goal = OverjetGoal.of(treatment, on);
    this.on = on;
    Optional<Reckoned<LocalDate>> day = goal.map(one -> one.projected(treatment, progress, on));
    projected = day.flatMap(Reckoned::result);
    promise =
        goal.flatMap(
                one ->
                    ProgressWords.lost(one, progress, later)
                        .or(() -> day.map(there -> ProgressWords.projection(progress, one, there))))
            .orElse("No overjet goal is set");
    List<Progress.Point> all = new ArrayList<>(points);
    all.addAll(later);
    LocalDate last = all.get(all.size() - 1).day();
    LocalDate end = projected.orElse(on.isAfter(last) ? on : last);
    axis = new DateAxis(points.get(0).day(), end.plusDays(14), LEFT, RIGHT);
    low = Math.floor(Math.min(0, least(all)));
    high = Math.ceil(Math.max(4, most(all)) + 0.5);
  }

  /** The drawing as an SVG element; empty below two points. */
  public static Optional<String> svg(Treatment treatment, LocalDate on) {
    Optional<Progress> progress =
        OverjetCourse.of(treatment, on).flatMap(OverjetCourse::progress).result();
    return progress.map(
        known -> {
          OverjetChart chart = new OverjetChart(treatment, known, on);
          return Svg.drawing(
              "overjet-" + treatment.id(),
              WIDTH,
              HEIGHT,
              "Overjet over time",
              chart.description(),
              chart::draw);
        });
  }

  private static double least(List<Progress.Point> points) {
    return points.stream().mapToDouble(each -> each.overjet().asDouble()).min().orElse(0);
  }

  private static double most(List<Progress.Point> points) {
    return points.stream().mapToDouble(each -> each.overjet().asDouble()).max().orElse(0);
  }

  private String description() {
    Progress.Point first = progress.points().get(0);
    Progress.Point last = progress.points().get(progress.points().size() - 1);
    return "Overjet "
        + mm(first.overjet().value())
        + " on "
        + first.day()
        + ", "
        + mm(last.overjet().value())
        + " on "
        + last.day()
        + ". "
        + rateInWords()
        + ". "
        + (later.isEmpty() ? "" : "Later " + ProgressWords.on(later.get(later.size() - 1)) + ". ")
        + promise
        + ".";
  }

  private String rateInWords() {
    return ProgressWords.rate(progress, over);
  }

  private double y(double overjet) {
    return BOTTOM - (overjet - low) / (high - low) * (BOTTOM - TOP);
  }

  private void draw(Svg svg) throws XMLStreamException {
    axes(svg);
    svg.text(new Spot(LEFT, 5), "start", rateInWords());
    svg.text(new Spot(LEFT, HEIGHT - 2), "start", promise);
    if (goal.isPresent()) {
      double y = y(goal.orElseThrow().target().asDouble());
      svg.dashed(new Spot(LEFT, y), new Spot(RIGHT, y), Ink.GREEN, 0.5);
    }
    fitted(svg);
    points(svg);
    if (goal.isPresent()) {
      goal(svg, goal.orElseThrow().target());
    }
  }

  /** Above its line or, where the course lies on it there, below. */
  private void goal(Svg svg, Length target) throws XMLStreamException {
    String words = "goal " + mm(target.value());
    double y = y(target.asDouble());
    List<Double> heights = new ArrayList<>(List.of(y - 0.8));
    double below = y + Svg.SMALL;
    if (below < BOTTOM) {
      heights.add(below);
    }
    svg.text(place.along(LEFT + 1, RIGHT, heights, words, Svg.SMALL), "start", words, Svg.SMALL);
  }

  private void axes(Svg svg) throws XMLStreamException {
    axis.ticks(svg, BOTTOM);
    svg.line(new Spot(LEFT, TOP - 2), new Spot(LEFT, BOTTOM), Ink.LINE, 0.35);
    int step = high - low > 12 ? 4 : 2;
    for (int each = (int) low; each <= high; each += step) {
      svg.line(new Spot(LEFT - 1, y(each)), new Spot(LEFT, y(each)), Ink.LINE, 0.35);
      svg.text(new Spot(LEFT - 2, y(each) + 1), "end", String.valueOf(each), Svg.SMALL);
    }
    svg.text(new Spot(2, 9), "start", "overjet, mm", Svg.SMALL);
    double x = axis.at(on);
    svg.dashed(new Spot(x, TOP), new Spot(x, BOTTOM), Ink.LINE, 0.35);
    place.line(new Spot(x, TOP), new Spot(x, BOTTOM));
    today.line(new Spot(x, TOP), new Spot(x, BOTTOM));
    svg.text(new Spot(x, BOTTOM + 7.5), "middle", "today", Svg.SMALL);
  }

  private void fitted(Svg svg) throws XMLStreamException {
    line(svg, progress.rate().doubleValue(), false);
    Optional<Progress.Interval> interval = progress.interval().result();
    if (interval.isPresent()) {
      line(svg, interval.orElseThrow().low().doubleValue(), true);
      line(svg, interval.orElseThrow().high().doubleValue(), true);
    }
    if (projected.isPresent() && goal.isPresent()) {
      Spot at =
          new Spot(axis.at(projected.orElseThrow()), y(goal.orElseThrow().target().asDouble()));
      svg.circle(at, 1.6, Ink.NONE, Ink.VERMILION);
      place.dot(at, 1.6);
    }
  }

  /** Every rate turns about the middle of the points, through which a fitted line goes. */
  private void line(Svg svg, double rate, boolean bound) throws XMLStreamException {
    List<Progress.Point> points = progress.points();
    LocalDate start = axis.from();
    double months =
        points.stream().mapToDouble(p -> Progress.months(start, p.day())).average().orElse(0);
    double middle = points.stream().mapToDouble(p -> p.overjet().asDouble()).average().orElse(0);
    double span = Progress.months(start, axis.to());
    double from = 0;
    double to = over ? Progress.months(start, points.get(points.size() - 1).day()) : span;
    if (rate != 0) {
      double atTop = months + (middle - high) / rate;
      double atBottom = months + (middle - low) / rate;
      from = Math.max(from, Math.min(atTop, atBottom));
      to = Math.min(to, Math.max(atTop, atBottom));
    }
    Spot left = spot(from, span, middle - rate * (from - months));
    Spot right = spot(to, span, middle - rate * (to - months));
    place.line(left, right);
    if (bound) {
      svg.dashed(left, right, Ink.BLUE, 0.35);
    } else {
      svg.line(left, right, Ink.BLUE, 0.8);
    }
  }

  private Spot spot(double months, double span, double overjet) {
    return new Spot(LEFT + months / span * (RIGHT - LEFT), y(overjet));
  }

  private void points(Svg svg) throws XMLStreamException {
    List<Progress.Point> points = new ArrayList<>(progress.points());
    points.addAll(later);
    boolean few = points.size() <= 16;
    double radius = few ? 1.1 : 0.7;
    FreePlace told = new FreePlace();
    // From the last one back: where two would lie on each other, the newer one is read.
    for (int i = points.size() - 1; i >= 0; i--) {
      Progress.Point each = points.get(i);
      Spot at = new Spot(axis.at(each.day()), y(each.overjet().asDouble()));
      if (i < progress.points().size()) {
        svg.dot(at, radius, Ink.LINE);
      } else {
        svg.circle(at, radius, Ink.NONE, Ink.LINE);
      }
      place.dot(at, radius);
      if (few) {
        value(svg, told, at, number(each));
      }
    }
  }

  /** Above on the right, or below on the left where the line of the day it is would cross it. */
  private void value(Svg svg, FreePlace told, Spot at, String number) throws XMLStreamException {
    Spot right = at.plus(1.2, -1.4);
    boolean crossed = !today.isFree(right, number, Svg.SMALL);
    Spot end = at.plus(-1.2, 2.9);
    Spot start = crossed ? end.plus(-FreePlace.width(number, Svg.SMALL), 0) : right;
    if (told.isFree(start, WIDEST, Svg.SMALL)) {
      svg.text(crossed ? end : right, crossed ? "end" : "start", number, Svg.SMALL);
      told.words(start, WIDEST, Svg.SMALL);
      place.words(start, number, Svg.SMALL);
    }
  }

  private static String number(Progress.Point point) {
    return point.overjet().value().stripTrailingZeros().toPlainString();
  }
}
