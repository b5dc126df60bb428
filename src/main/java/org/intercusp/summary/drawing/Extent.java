package org.intercusp.summary.drawing;

/** The part of the paper that a drawing needs, in mm; it grows with what is drawn. */
final class Extent {

  /** Width of a letter as a share of its size: "Adams 0.7" takes 0.60 in DejaVu Sans (counted). */
  private static final double LETTER = 0.64;

  private double left;
  private double top;
  private double right;
  private double bottom;

  Extent(double width, double height) {
    right = width;
    bottom = height;
  }

  void hold(Spot spot, double margin) {
    left = Math.min(left, spot.x() - margin);
    right = Math.max(right, spot.x() + margin);
    top = Math.min(top, spot.y() - margin);
    bottom = Math.max(bottom, spot.y() + margin);
  }

  void holdWords(Spot at, String anchor, int letters, double size) {
    double length = width(letters, size);
    double start =
        switch (anchor) {
          case "middle" -> at.x() - length / 2;
          case "end" -> at.x() - length;
          default -> at.x();
        };
    hold(new Spot(start, at.y() - size), 0);
    hold(new Spot(start + length, at.y() + size * 0.3), 0);
  }

  static double width(int letters, double size) {
    return letters * size * LETTER;
  }

  double width() {
    return right - left;
  }

  double height() {
    return bottom - top;
  }

  /** As the view box of SVG writes it. */
  String shown() {
    return Svg.number(left)
        + " "
        + Svg.number(top)
        + " "
        + Svg.number(width())
        + " "
        + Svg.number(height());
  }
}
