package org.intercusp.analysis.film;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.EnumMap;
import java.util.Map;
import org.intercusp.measure.Decimal;
import org.intercusp.treatment.Film;
import org.intercusp.treatment.Gonion;
import org.intercusp.treatment.JawPosition;
import org.intercusp.treatment.Landmark;
import org.intercusp.treatment.Point;

/** A face drawn from chosen angles, so that measuring it must give them back; and other films. */
public final class Face {

  private Face() {}

  /** SNA 80.5, SNB 76, SN-Mx 9, MMPA 25, U1-Mx 112, L1-Md 95.5; so ANB 4.5, interincisal 127.5. */
  public static Map<Landmark, Point> classTwo() {
    double base = 7;
    double maxillary = base - 9;
    double mandibular = maxillary - 25;
    double[] n = from(new double[] {0, 0}, base, 70);
    double[] a = from(n, base + 180 + 80.5, 55);
    double[] ans = from(n, base + 180 + 84, 52);
    double[] b = from(n, base + 180 + 76, 95);
    double[] me = from(b, 250, 25);
    double[] ui = from(a, 290, 28);
    double[] li = from(ui, 200, 7);
    Map<Landmark, Point> map = new EnumMap<>(Landmark.class);
    put(map, Landmark.S, new double[] {0, 0});
    put(map, Landmark.N, n);
    put(map, Landmark.A, a);
    put(map, Landmark.B, b);
    put(map, Landmark.ANS, ans);
    put(map, Landmark.PNS, from(ans, maxillary + 180, 52));
    put(map, Landmark.ME, me);
    put(map, Landmark.GO, from(me, mandibular + 180, 68));
    put(map, Landmark.UI, ui);
    put(map, Landmark.UIA, from(ui, maxillary + 180 + 112 + 180, 24));
    put(map, Landmark.LI, li);
    put(map, Landmark.LIA, from(li, mandibular + 180 - 95.5 + 180, 22));
    put(map, Landmark.POG, from(me, 70, 9));
    put(map, Landmark.GN, from(me, 30, 4));
    put(map, Landmark.CO, new double[] {-12, -18});
    put(map, Landmark.OPA, from(li, 20, 3));
    put(map, Landmark.OPP, from(li, 176, 35));
    put(map, Landmark.U6, from(ui, 176, 30));
    put(map, Landmark.U6D, from(ui, 174, 38));
    put(map, Landmark.L6, from(ui, 182, 33));
    return map;
  }

  /** A habitual film with constructed gonion. */
  public static Film film(String id, Map<Landmark, Point> landmarks, String magnification) {
    return new Film(
        id,
        LocalDate.of(2026, 1, 12),
        JawPosition.HABITUAL,
        magnification == null ? null : Decimal.of(magnification),
        landmarks,
        Gonion.CONSTRUCTED,
        null,
        null,
        null);
  }

  /** Turned about the origin, enlarged and moved. */
  public static Map<Landmark, Point> moved(
      Map<Landmark, Point> landmarks, double turn, double factor, double dx, double dy) {
    Map<Landmark, Point> moved = new EnumMap<>(Landmark.class);
    double c = Math.cos(Math.toRadians(turn)) * factor;
    double s = Math.sin(Math.toRadians(turn)) * factor;
    landmarks.forEach(
        (landmark, p) -> {
          double x = p.x().value().doubleValue();
          double y = p.y().value().doubleValue();
          put(moved, landmark, new double[] {c * x - s * y + dx, s * x + c * y + dy});
        });
    return moved;
  }

  public static Point point(double x, double y) {
    return new Point(decimal(x), decimal(y));
  }

  private static double[] from(double[] start, double degrees, double length) {
    double radians = Math.toRadians(degrees);
    return new double[] {
      start[0] + length * Math.cos(radians), start[1] + length * Math.sin(radians)
    };
  }

  private static void put(Map<Landmark, Point> map, Landmark landmark, double[] at) {
    map.put(landmark, point(at[0], at[1]));
  }

  private static Decimal decimal(double value) {
    return new Decimal(BigDecimal.valueOf(value).setScale(9, RoundingMode.HALF_EVEN));
  }
}
