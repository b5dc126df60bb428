package org.intercusp.summary.drawing;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** Parallel slanting lines across a polygon, cut at its sides. */
final class Hatch {

  private static final double APART = 1.1;

  record Stroke(Spot from, Spot to) {}

  private Hatch() {}

  static List<Stroke> across(List<Spot> corners) {
    double least = corners.stream().mapToDouble(Hatch::offset).min().orElse(0);
    double most = corners.stream().mapToDouble(Hatch::offset).max().orElse(0);
    List<Stroke> strokes = new ArrayList<>();
    for (double at = least + APART / 2; at < most; at += APART) {
      List<Spot> cuts = cuts(corners, at);
      for (int i = 0; i + 1 < cuts.size(); i += 2) {
        strokes.add(new Stroke(cuts.get(i), cuts.get(i + 1)));
      }
    }
    return strokes;
  }

  /** Lines of equal offset slant at 45 degrees. */
  private static double offset(Spot spot) {
    return spot.x() + spot.y();
  }

  private static List<Spot> cuts(List<Spot> corners, double at) {
    List<Spot> cuts = new ArrayList<>();
    for (int i = 0; i < corners.size(); i++) {
      Spot a = corners.get(i);
      Spot b = corners.get((i + 1) % corners.size());
      double from = offset(a) - at;
      double to = offset(b) - at;
      if ((from < 0) != (to < 0)) {
        double share = from / (from - to);
        cuts.add(a.plus((b.x() - a.x()) * share, (b.y() - a.y()) * share));
      }
    }
    cuts.sort(Comparator.comparingDouble(Spot::x));
    return cuts;
  }
}
