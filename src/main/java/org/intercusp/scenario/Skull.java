package org.intercusp.scenario;

import java.util.EnumMap;
import java.util.Map;
import org.intercusp.treatment.Landmark;

/**
 * Landmarks of an invented class II profile, built from angles and lengths so that a tracing of
 * them gives those angles back. Means near the Eastman norms (from memory) with a lower jaw set
 * back; lengths are common practice, no source.
 */
final class Skull {

  private final double sn;
  private final double sna;
  private final double anb;
  private final double snMandible;
  private final double snMaxilla;
  private final double upperIncisor;
  private final double lowerIncisor;
  private final double growth;

  Skull(Draw draw) {
    this.sn = draw.normal(70, 3, 62, 78);
    this.sna = draw.normal(81, 3, 73, 89);
    this.anb = draw.normal(5.5, 1.6, 2, 10);
    this.snMaxilla = draw.normal(8, 2.5, 2, 14);
    this.snMandible = snMaxilla + draw.normal(26, 4, 15, 37);
    this.upperIncisor = draw.normal(114, 6, 98, 130);
    this.lowerIncisor = draw.normal(94, 6, 80, 110);
    this.growth = draw.normal(1.5, 0.8, -0.5, 4);
  }

  /**
   * The landmarks, S at the origin, without magnification.
   *
   * @param done share of the change that is done
   */
  Map<Landmark, double[]> at(double done, double overjet, double overbite, double molar) {
    Map<Landmark, double[]> at = new EnumMap<>(Landmark.class);
    double slope = 7; // S to N rises forward on a film taken level
    double[] s = {0, 0};
    double[] n = from(s, sn, slope);
    double down = 180 + slope;
    double[] a = from(n, 58, down + sna);
    double snb = sna - anb + growth * done;
    double[] b = from(n, 97 + 3 * done, down + snb);
    double[] pog = from(n, 110 + 3 * done, down + snb + 1);
    double mandible = slope - snMandible;
    double[] me = {pog[0] - 6, pog[1] - 8};
    double[] gn = {(pog[0] + me[0]) / 2 + 1.2, (pog[1] + me[1]) / 2 - 1.2};
    double[] go = from(me, 66 + 2 * done, 180 + mandible);
    double maxilla = slope - snMaxilla;
    double[] ans = {a[0] + 3, a[1] + 4};
    at.put(Landmark.S, s);
    at.put(Landmark.N, n);
    at.put(Landmark.A, a);
    at.put(Landmark.B, b);
    at.put(Landmark.POG, pog);
    at.put(Landmark.GN, gn);
    at.put(Landmark.ME, me);
    at.put(Landmark.GO, go);
    at.put(Landmark.CO, from(go, 54 + 2 * done, 96));
    at.put(Landmark.ANS, ans);
    at.put(Landmark.PNS, from(ans, 52, 180 + maxilla));
    teeth(at, overjet, overbite, molar, 180 + maxilla, 180 + mandible);
    return at;
  }

  private void teeth(
      Map<Landmark, double[]> at,
      double overjet,
      double overbite,
      double molar,
      double maxillaBack,
      double mandibleBack) {
    double[] ans = at.getOrDefault(Landmark.ANS, new double[2]);
    double[] ui = {ans[0] + 2, ans[1] - 29};
    double[] uia = from(ui, 23, maxillaBack + upperIncisor + 180);
    double back = 180 - 7.5; // the occlusal plane falls forward
    double up = back - 90;
    double[] li = from(from(ui, overjet, back), overbite, up);
    double[] lia = from(li, 21, mandibleBack - lowerIncisor + 180);
    double[] front = {(ui[0] + li[0]) / 2, (ui[1] + li[1]) / 2};
    double[] u6 = from(front, 30, back);
    at.put(Landmark.UI, ui);
    at.put(Landmark.UIA, uia);
    at.put(Landmark.LI, li);
    at.put(Landmark.LIA, lia);
    at.put(Landmark.OPA, from(front, 8, back));
    at.put(Landmark.OPP, from(front, 42, back));
    at.put(Landmark.U6, u6);
    at.put(Landmark.L6, from(u6, molar, back));
    at.put(Landmark.U6D, from(u6, 9, back));
  }

  /** A point so far from another, at an angle in degrees from forward, turning up. */
  private static double[] from(double[] point, double length, double degrees) {
    double angle = StrictMath.toRadians(degrees);
    return new double[] {
      point[0] + length * StrictMath.cos(angle), point[1] + length * StrictMath.sin(angle)
    };
  }
}
