package org.intercusp.summary.drawing;

/**
 * Where a jaw lies on the paper: a frame whose origin is the incisal edge, with {@code behind}
 * running back along the occlusal plane and {@code above} towards the nose, both in mm. The patient
 * looks to the right.
 *
 * @param edge the incisal edge on the paper
 * @param turn how far the jaw has turned open about its edge, in radians: what lies behind rises
 * @param scale paper mm for a mm of the jaw
 */
record JawFrame(Spot edge, double turn, double scale) {

  /** At its own size. */
  JawFrame(Spot edge, double turn) {
    this(edge, turn, 1);
  }

  Spot at(double behind, double above) {
    double x = -behind * Math.cos(turn) - above * Math.sin(turn);
    double up = behind * Math.sin(turn) + above * Math.cos(turn);
    return new Spot(edge.x() + x * scale, edge.y() - up * scale);
  }
}
