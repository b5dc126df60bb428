package org.intercusp.summary.drawing;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import javax.xml.stream.XMLStreamException;
import org.intercusp.analysis.Reckoned;
import org.intercusp.analysis.stage.CurrentStage;
import org.intercusp.analysis.stage.NextReview;
import org.intercusp.analysis.stage.StageDates;
import org.intercusp.measure.Unit;
import org.intercusp.treatment.Review;
import org.intercusp.treatment.Stage;
import org.intercusp.treatment.Treatment;

/** Time line of the stages, with the reviews held, the day it is and the next review. */
public final class StageLine {

  private static final double WIDTH = 160;
  private static final double LEFT = 46;
  private static final double RIGHT = 152;
  private static final double TOP = 12;
  private static final double ROW = 8;

  private final List<StageDates> stages;
  private final Optional<Stage> underWay;
  private final List<LocalDate> reviews;
  private final Optional<NextReview> next;
  private final LocalDate on;
  private final DateAxis axis;

  private StageLine(Treatment treatment, LocalDate on) {
    this.on = on;
    stages =
        StageDates.of(treatment).stream().map(Reckoned::result).flatMap(Optional::stream).toList();
    underWay = treatment.hasEnded() ? Optional.empty() : CurrentStage.on(treatment, on);
    reviews =
        treatment.reviews().stream()
            .map(Review::date)
            .filter(date -> !date.isAfter(on))
            .sorted()
            .toList();
    next = NextReview.of(treatment).result();
    axis = axis();
  }

  /** The drawing as an SVG element; empty while no stage has a date. */
  public static Optional<String> svg(Treatment treatment, LocalDate on) {
    StageLine line = new StageLine(treatment, on);
    return line.stages.isEmpty()
        ? Optional.empty()
        : Optional.of(
            Svg.drawing(
                "stages-" + treatment.id(),
                WIDTH,
                line.bottom() + 12,
                "Time line of the treatment",
                line.description(),
                line::draw));
  }

  private DateAxis axis() {
    List<LocalDate> days = new ArrayList<>(reviews);
    days.add(on);
    stages.forEach(
        each -> {
          days.add(each.start());
          days.add(each.end());
        });
    next.ifPresent(review -> days.add(review.by()));
    days.sort(null);
    return new DateAxis(days.get(0), days.get(days.size() - 1), LEFT, RIGHT);
  }

  private double bottom() {
    return TOP + ROW * (stages.size() + 1);
  }

  private String description() {
    String all = stages.stream().map(this::named).collect(Collectors.joining(", "));
    return "Stages: "
        + all
        + ". Today "
        + on
        + ", "
        + reviews.size()
        + " reviews held. "
        + nextInWords()
        + ".";
  }

  private String named(StageDates dates) {
    return dates.stage().kind().code()
        + (isUnderWay(dates) ? " (under way)" : "")
        + " from "
        + dates.start()
        + " to "
        + dates.end();
  }

  /** The stage the patient is in, which need not be the one that runs by its dates. */
  private boolean isUnderWay(StageDates dates) {
    return underWay.filter(dates.stage()::equals).isPresent();
  }

  private String nextInWords() {
    return next.map(
            review ->
                review.by().isBefore(on)
                    ? "Review was due " + review.by()
                    : review.from().equals(review.by())
                        ? "Next review " + review.by()
                        : "Next review " + review.from() + " to " + review.by())
        .orElse("No next review");
  }

  private void draw(Svg svg) throws XMLStreamException {
    for (int i = 0; i < stages.size(); i++) {
      stage(svg, stages.get(i), TOP + ROW * i);
    }
    double y = TOP + ROW * stages.size() + 3.5;
    svg.text(new Spot(2, y + 1), "start", "reviews");
    for (LocalDate each : reviews) {
      svg.line(new Spot(axis.at(each), y - 1.5), new Spot(axis.at(each), y + 1.5), Ink.LINE, 0.6);
    }
    axis.ticks(svg, bottom());
    today(svg);
    if (next.isPresent()) {
      nextReview(svg, next.orElseThrow(), y);
    }
  }

  private void stage(Svg svg, StageDates dates, double y) throws XMLStreamException {
    double from = axis.at(dates.start());
    double to = Math.max(from + 0.8, axis.at(dates.end()));
    List<Spot> corners =
        List.of(new Spot(from, y), new Spot(to, y), new Spot(to, y + 5.4), new Spot(from, y + 5.4));
    svg.path(
        Outline.through(corners).close(), isUnderWay(dates) ? Ink.SKY : Ink.NONE, Ink.LINE, 0.4);
    svg.text(
        new Spot(2, y + 3.8),
        "start",
        dates.stage().kind().code() + ", " + Unit.MONTH.behind(dates.stage().months()));
  }

  private void today(Svg svg) throws XMLStreamException {
    double x = axis.at(on);
    svg.line(new Spot(x, TOP - 2), new Spot(x, bottom()), Ink.VERMILION, 0.6);
    svg.text(new Spot(x, TOP - 3.5), anchor(x), "today " + on);
  }

  private void nextReview(Svg svg, NextReview review, double y) throws XMLStreamException {
    double x = axis.at(review.by());
    svg.path(
        Outline.from(new Spot(x, y - 1.8))
            .to(new Spot(x + 1.8, y))
            .to(new Spot(x, y + 1.8))
            .to(new Spot(x - 1.8, y))
            .close(),
        Ink.GREEN,
        Ink.LINE);
    svg.text(new Spot(axis.at(on), bottom() + 9), anchor(axis.at(on)), nextInWords());
    svg.line(new Spot(x, y + 1.8), new Spot(x, bottom()), Ink.GREEN, 0.3);
  }

  private static String anchor(double x) {
    return x < LEFT + 20 ? "start" : x > RIGHT - 25 ? "end" : "middle";
  }
}
