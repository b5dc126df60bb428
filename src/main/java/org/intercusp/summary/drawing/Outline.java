package org.intercusp.summary.drawing;

import java.util.ArrayList;
import java.util.List;

/** A line with corners and curves, as SVG path data (W3C SVG 1.1, chapter 8). */
final class Outline {

  private final StringBuilder data = new StringBuilder();
  private final List<Spot> spots = new ArrayList<>();

  private Outline(Spot start) {
    data.append("M").append(start.shown());
    spots.add(start);
  }

  static Outline from(Spot start) {
    return new Outline(start);
  }

  /** Through all corners, in their order. */
  static Outline through(List<Spot> corners) {
    Outline outline = from(corners.get(0));
    corners.subList(1, corners.size()).forEach(outline::to);
    return outline;
  }

  Outline to(Spot next) {
    data.append(" L").append(next.shown());
    spots.add(next);
    return this;
  }

  /** A curve that heads for a point and ends at another. */
  Outline bend(Spot towards, Spot end) {
    data.append(" Q").append(towards.shown()).append(" ").append(end.shown());
    spots.add(towards);
    spots.add(end);
    return this;
  }

  Outline close() {
    data.append(" Z");
    return this;
  }

  String data() {
    return data.toString();
  }

  List<Spot> spots() {
    return List.copyOf(spots);
  }
}
