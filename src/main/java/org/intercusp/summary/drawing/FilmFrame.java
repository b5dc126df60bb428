package org.intercusp.summary.drawing;

import java.util.Collection;
import org.intercusp.treatment.Point;

/**
 * How film coordinates (mm, x forward and y up) come onto the paper: turned about a point, enlarged
 * or reduced, moved.
 *
 * @param aboutX film point that {@code at} stands for
 * @param turn in radians, counter-clockwise
 * @param scale paper mm for a film mm
 */
record FilmFrame(double aboutX, double aboutY, Spot at, double turn, double scale) {

  Spot of(Point point) {
    double dx = point.x().value().doubleValue() - aboutX;
    double dy = point.y().value().doubleValue() - aboutY;
    double x = dx * Math.cos(turn) - dy * Math.sin(turn);
    double y = dx * Math.sin(turn) + dy * Math.cos(turn);
    return new Spot(at.x() + x * scale, at.y() - y * scale);
  }

  /** Fits points into a rectangle, at their own size where they have room. */
  static FilmFrame fitting(Collection<Point> points, Spot corner, double width, double height) {
    double left = points.stream().mapToDouble(FilmFrame::x).min().orElse(0);
    double right = points.stream().mapToDouble(FilmFrame::x).max().orElse(0);
    double low = points.stream().mapToDouble(FilmFrame::y).min().orElse(0);
    double high = points.stream().mapToDouble(FilmFrame::y).max().orElse(0);
    double scale =
        Math.min(1, Math.min(width / Math.max(1, right - left), height / Math.max(1, high - low)));
    return new FilmFrame(left, high, corner, 0, scale);
  }

  private static double x(Point point) {
    return point.x().value().doubleValue();
  }

  private static double y(Point point) {
    return point.y().value().doubleValue();
  }
}
