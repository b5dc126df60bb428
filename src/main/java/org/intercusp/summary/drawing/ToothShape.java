package org.intercusp.summary.drawing;

import java.util.ArrayList;
import java.util.List;
import org.intercusp.dentition.Arch;
import org.intercusp.dentition.Side;
import org.intercusp.dentition.Tooth;

/**
 * The place of every tooth in an arch seen from the mouth, patient's right on the left of the
 * paper. Widths and the shape of the arch are a plain picture (common practice, no source).
 *
 * @param out direction from the middle of the arch outwards, in radians on the paper
 */
record ToothShape(Spot middle, double width, double depth, double out) {

  private static final double[] UPPER = {8.5, 6.5, 7.5, 7, 7, 10, 9.5, 8.5};
  private static final double[] LOWER = {5.5, 6, 7, 7, 7, 11, 10.5, 10};
  private static final double HALF_WIDTH = 24;
  private static final double LENGTH = 43;
  private static final int STEPS = 400;

  /**
   * The place of a tooth.
   *
   * @param front middle of the front of the arch on the paper
   */
  static ToothShape of(Tooth tooth, Spot front) {
    boolean upper = tooth.arch() == Arch.UPPER;
    double[] widths = upper ? UPPER : LOWER;
    int slot = Math.min(tooth.position(), widths.length) - 1;
    double total = 0;
    double before = 0;
    for (int i = 0; i < widths.length; i++) {
      before += i < slot ? widths[i] : 0;
      total += widths[i];
    }
    double share = (before + widths[slot] / 2) / total;
    return at(share, widths[slot], slot, tooth.side() == Side.RIGHT ? -1 : 1, upper, front);
  }

  private static ToothShape at(
      double share, double width, int slot, int side, boolean upper, Spot front) {
    List<Spot> curve = curve();
    double length = length(curve) * share;
    int i = 0;
    for (double so = 0; i + 2 < curve.size() && so < length; i++) {
      so += distance(curve.get(i), curve.get(i + 1));
    }
    Spot here = curve.get(i);
    Spot next = curve.get(i + 1);
    int down = upper ? 1 : -1;
    double dx = side * (next.x() - here.x());
    double dy = down * (next.y() - here.y());
    double out = Math.atan2(down * -Math.abs(dx), side * Math.abs(dy));
    Spot middle = front.plus(side * here.x(), down * here.y());
    double depth = slot < 3 ? 6.5 : slot < 5 ? 8 : 9.5;
    return new ToothShape(middle, width * 0.88, depth, out);
  }

  /** Half an ellipse from the front backwards. */
  private static List<Spot> curve() {
    List<Spot> curve = new ArrayList<>();
    for (int i = 0; i <= STEPS; i++) {
      double angle = Math.PI / 2 * i / STEPS;
      curve.add(new Spot(HALF_WIDTH * Math.sin(angle), LENGTH * (1 - Math.cos(angle))));
    }
    return curve;
  }

  private static double length(List<Spot> curve) {
    double length = 0;
    for (int i = 0; i + 1 < curve.size(); i++) {
      length += distance(curve.get(i), curve.get(i + 1));
    }
    return length;
  }

  private static double distance(Spot a, Spot b) {
    return Math.hypot(b.x() - a.x(), b.y() - a.y());
  }

  /** A place seen from the middle of the tooth: outwards, and along the arch. */
  Spot from(double outwards, double along) {
    return middle.plus(
        outwards * Math.cos(out) - along * Math.sin(out),
        outwards * Math.sin(out) + along * Math.cos(out));
  }

  List<Spot> corners() {
    double w = width / 2;
    double d = depth / 2;
    return List.of(from(d, -w), from(d, w), from(-d, w), from(-d, -w));
  }
}
