package org.intercusp.summary.drawing;

/** A place on the paper in mm, x to the right and y down. */
record Spot(double x, double y) {

  Spot plus(double dx, double dy) {
    return new Spot(x + dx, y + dy);
  }

  /** As SVG path data writes it. */
  String shown() {
    return Svg.number(x) + " " + Svg.number(y);
  }
}
