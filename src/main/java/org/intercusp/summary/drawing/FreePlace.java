package org.intercusp.summary.drawing;

import java.awt.geom.Rectangle2D;
import java.util.ArrayList;
import java.util.List;

/** Where words of one line find room beside what is drawn: on no line, dot or other words. */
final class FreePlace {

  /** Mean width of a letter as a share of its size. */
  private static final double LETTER = 0.6;

  private static final double STEP = 2;

  private record Line(Spot from, Spot to) {}

  private final List<Line> lines = new ArrayList<>();
  private final List<Rectangle2D> taken = new ArrayList<>();

  void line(Spot from, Spot to) {
    lines.add(new Line(from, to));
  }

  void dot(Spot at, double radius) {
    taken.add(new Rectangle2D.Double(at.x() - radius, at.y() - radius, 2 * radius, 2 * radius));
  }

  void words(Spot start, String words, double size) {
    taken.add(box(start, words, size));
  }

  boolean isFree(Spot start, String words, double size) {
    Rectangle2D box = box(start, words, size);
    return taken.stream().noneMatch(box::intersects)
        && lines.stream()
            .noneMatch(
                line ->
                    box.intersectsLine(
                        line.from().x(), line.from().y(), line.to().x(), line.to().y()));
  }

  /**
   * The first free start from the left between two sides, on the first of the lines of writing that
   * has one; the left end of the first where all is full.
   */
  Spot along(double left, double right, List<Double> heights, String words, double size) {
    double last = right - box(new Spot(0, 0), words, size).getWidth();
    for (double y : heights) {
      for (double x = left; x <= last; x += STEP) {
        Spot start = new Spot(x, y);
        if (isFree(start, words, size)) {
          return start;
        }
      }
    }
    return new Spot(left, heights.get(0));
  }

  static double width(String words, double size) {
    return words.codePointCount(0, words.length()) * LETTER * size;
  }

  private static Rectangle2D box(Spot start, String words, double size) {
    return new Rectangle2D.Double(start.x(), start.y() - size * 0.75, width(words, size), size);
  }
}
